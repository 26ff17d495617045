package travel

import (
	"context"
	"fmt"
	"strings"
	"sync"

	"ampstead/fit"
	"ampstead/rig"
)

// Ground is the first weather year along a route, made once for many rigs that
// follow it: the weather, and the light on the panels for each way they stand
// (4 MB each). It may be used from several goroutines.
type Ground struct {
	o     Options
	skies *skies
	sky   []daySky

	lock   sync.Mutex
	lights map[string]*light
}

// NewGround prepares the weather along a rig's route. Of the Options, Seed, StepS
// and Weather count. Errors: as Run.
func NewGround(r *rig.Rig, o Options) (*Ground, error) {
	o.Years, o.Limits, o.Span = 1, false, nil
	s, err := prepare(r, o)
	if err != nil {
		return nil, err
	}
	return &Ground{o: s.o, skies: s.skies, sky: s.skies.year(0), lights: map[string]*light{}}, nil
}

// Year runs the year with a rig on the same route, for which fit found res. It is
// the year of Run with everyone at the switch, with its months, and without stays,
// days and findings. Errors: as Run, and for a rig that stands elsewhere.
func (g *Ground) Year(ctx context.Context, r *rig.Rig, res *fit.Result) (*Result, error) {
	return g.year(ctx, r, res, false)
}

// BriskYear is Year in less time: wherever no load can be cut off and no relay can
// open it takes five or fifteen minutes at once, in the dark up to an hour where
// nothing at all can switch. Hours short differ from those of Year by less than a
// tenth or 30 hours, about one outage, whichever is more.
func (g *Ground) BriskYear(ctx context.Context, r *rig.Rig, res *fit.Result) (*Result, error) {
	return g.year(ctx, r, res, true)
}

func (g *Ground) year(ctx context.Context, r *rig.Rig, res *fit.Result, brisk bool) (*Result, error) {
	r, err := withPlaces(r)
	if err != nil {
		return nil, err
	}
	way, err := routeOf(r, g.o.Weather != nil)
	if err != nil {
		return nil, err
	}
	if !g.skies.route.follows(way) {
		return nil, fmt.Errorf("the rig stands at other places or on other days than the weather was made for")
	}
	w, err := newWorld(r, res, way, g.o)
	if err != nil {
		return nil, err
	}
	w.brisk = brisk
	y, err := w.run(ctx, g.sky, g.light(way), 0, nil)
	if err != nil {
		return nil, err
	}
	return &Result{Year: y.Year, Months: monthsOf(way, y), Bands: bandsOf([]*yearTally{y}), Weather: g.skies.describe(g.o),
		Assumed: w.assumed, Figures: figuresUsed()}, nil
}

// light is what falls on panels that stand as they do along a route.
func (g *Ground) light(way *route) *light {
	var key strings.Builder
	for i := range way.places {
		p := &way.places[i]
		fmt.Fprintf(&key, "%g %g %g;", p.tilt, p.facing, p.shade)
	}
	g.lock.Lock()
	defer g.lock.Unlock()
	l := g.lights[key.String()]
	if l == nil {
		l = newLight()
		l.fill(way, g.sky)
		g.lights[key.String()] = l
	}
	return l
}

// follows reports whether another route has the same weather.
func (r *route) follows(other *route) bool {
	if len(r.places) != len(other.places) || r.calendar != other.calendar {
		return false
	}
	for i := range r.places {
		a, b := &r.places[i], &other.places[i]
		if a.latitude != b.latitude || a.longitude != b.longitude || !same(a.stay.Elevation, b.stay.Elevation) {
			return false
		}
	}
	for d := range r.days {
		if r.days[d].place != other.days[d].place {
			return false
		}
	}
	return true
}

func same[Q comparable](a, b *Q) bool { return a == b || a != nil && b != nil && *a == *b }
