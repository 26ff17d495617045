package drill

import (
	"time"

	"ampstead/rig"
	"ampstead/weather/climate"
)

// stay is a place of the route as scenes need it.
type stay struct {
	name                string
	latitude            float64
	coldest, coldestAir float64 // °C
	hottest             float64
	firstDay, days      int // of the year from 1, and how many
	driven, hookup      bool
	hookupA             float64
}

// Taken of a route that does not say; ours.
const (
	anyLatitude = 45.0
	anyColdest  = -5.0
	anyHottest  = 35.0
	anyHookupA  = 10.0
)

// places reads the route, or one place that stands for any.
func (s *scenery) places() {
	for k := range s.rig.Route {
		s.stays = append(s.stays, s.place(&s.rig.Route[k]))
	}
	if len(s.stays) == 0 {
		s.assume("there is no route: scenes are set at %g° of latitude, between %g and %g °C", anyLatitude, anyColdest, anyHottest)
		s.stays = []stay{{latitude: anyLatitude, coldest: anyColdest, coldestAir: anyColdest, hottest: anyHottest,
			firstDay: 1, days: 365, driven: true, hookup: true, hookupA: anyHookupA}}
	}
}

func (s *scenery) place(r *rig.Stay) stay {
	p := stay{name: r.Name, latitude: s.latitude(r), coldest: anyColdest, hottest: anyHottest, hookup: r.Hookup, hookupA: anyHookupA}
	p.coldest = s.given(r.Coldest != nil, func() float64 { return float64(*r.Coldest) }, anyColdest, r.Name+".coldest")
	p.hottest = max(p.coldest, s.given(r.Hottest != nil, func() float64 { return float64(*r.Hottest) }, anyHottest, r.Name+".hottest"))
	p.coldestAir = p.coldest
	if r.ColdestAir != nil {
		p.coldestAir = float64(*r.ColdestAir)
	}
	if r.HookupLimit != nil {
		p.hookupA = float64(*r.HookupLimit)
	}
	p.driven = r.Driving != nil && *r.Driving > 0
	p.firstDay = r.From.YearDay()
	p.days = 1 + int(r.To.Sub(r.From.Time)/(24*time.Hour))
	return p
}

// given is a value of the file, or what is taken and said.
func (s *scenery) given(is bool, value func() float64, instead float64, path string) float64 {
	if is {
		return value()
	}
	s.assume("route.%s is not given: %g °C", path, instead)
	return instead
}

func (s *scenery) latitude(r *rig.Stay) float64 {
	if r.Latitude != nil {
		return float64(*r.Latitude)
	}
	if found, err := climate.Find(r.Near); err == nil && r.Near != "" && len(found) > 0 {
		return found[0].Latitude
	}
	s.assume("route.%s.latitude is not given: %g°", r.Name, anyLatitude)
	return anyLatitude
}

// middle is the day in the middle of a stay, 1 to 365.
func (p *stay) middle() int { return p.day(p.days / 2) }

func (p *stay) day(k int) int { return (p.firstDay-1+k)%365 + 1 }

// best is the stay that comes first by less, the earlier of equals.
func (s *scenery) best(fits func(*stay) bool, less func(a, b *stay) bool) *stay {
	var best *stay
	for k := range s.stays {
		if p := &s.stays[k]; fits(p) && (best == nil || less(p, best)) {
			best = p
		}
	}
	return best
}

func anyStay(*stay) bool { return true }

func colder(a, b *stay) bool { return a.coldest < b.coldest }

func (s *scenery) coldest() *stay { return s.best(anyStay, colder) }

func (s *scenery) hottest() *stay {
	return s.best(anyStay, func(a, b *stay) bool { return a.hottest > b.hottest })
}

// coldestDriven is the coldest of the stays that are driven to, else of all.
func (s *scenery) coldestDriven() *stay {
	if p := s.best(func(p *stay) bool { return p.driven }, colder); p != nil {
		return p
	}
	return s.coldest()
}

// hookup is the coldest stay with a hook-up.
func (s *scenery) hookup() (*stay, bool) {
	p := s.best(func(p *stay) bool { return p.hookup }, colder)
	return p, p != nil
}
