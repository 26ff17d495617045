package picture

import (
	"math"
	"strings"

	q "ampstead/quantity"
	"ampstead/travel"
)

// Route draws where the rig stands: latitude upward against the date, one bar for
// each stay, joined by the ways between them.
func Route(res *travel.Result, o Options) string {
	c, height := route(res, o)
	return c.finish(o, height, "The route, latitude against date", describeRoute(res, o))
}

func route(res *travel.Result, o Options) (*canvas, float64) {
	c := newCanvas("route", o)
	r := newTrack(c, res, o)
	if r == nil {
		return c, caption(c, 0, "The stays have no places on the map.")
	}
	top := r.title(0, "Latitude", "through the year")
	r.b.top, r.b.bottom = top, top+r.tall()
	r.axis(r.b, 44, func(v, _ float64) string { return q.DegreesNorth.Text(v, r.units) })
	first, names := monthStarts(res.Days)
	r.marksOf("hair", first, r.b.top, r.b.bottom)
	r.bars()
	r.circles()
	r.labels()
	r.names(r.b.bottom, first, names)
	return c, r.below(r.b.bottom + 24)
}

// track is the route's picture while it is drawn.
type track struct {
	*chart
	res    *travel.Result
	runs   []stretch
	stay   []*travel.Stay // of each run
	b      band
	taken  []box
	unsaid []string
}

func newTrack(c *canvas, res *travel.Result, o Options) *track {
	r := &track{chart: newChart(c, len(res.Days), o), res: res}
	r.x.p0, r.x.p1 = axisWide+14, c.width-6
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range stretches(res.Days) {
		stay := stayOf(res, s.place)
		if stay == nil {
			continue
		}
		r.runs, r.stay = append(r.runs, s), append(r.stay, stay)
		low, high = math.Min(low, stay.Latitude), math.Max(high, stay.Latitude)
	}
	if len(r.runs) == 0 {
		return nil
	}
	pad := math.Max(4, (high-low)*labelRoom/(r.tall()-2*labelRoom))
	r.b = band{low: math.Max(-90, low-pad), high: math.Min(90, high+pad)}
	return r
}

// labelRoom is the height kept above the highest and below the lowest stay for
// what is said of them, px.
const labelRoom = 84.0

// stayOf finds a stay by name; one without a place on the map counts as none.
func stayOf(res *travel.Result, name string) *travel.Stay {
	for i := range res.Stays {
		if s := &res.Stays[i]; s.Name == name && (s.Latitude != 0 || s.Longitude != 0) {
			return s
		}
	}
	return nil
}

func (r *track) tall() float64 {
	if r.narrow {
		return 440
	}
	return 360
}

// circles draws the lines of the globe that the route comes near: beyond the
// polar circles the sun does not rise, or not set, for part of the year.
func (r *track) circles() {
	for _, l := range []struct {
		name string
		at   float64
	}{{"polar circle", 66.56}, {"tropic", 23.44}, {"equator", 0}, {"tropic", -23.44}, {"polar circle", -66.56}} {
		if !r.b.holds(l.at) {
			continue
		}
		y := r.b.y(l.at)
		r.c.line("dash", r.x.p0, y, r.x.p1, y)
		text := box{r.x.p0 + 4, y - 4 - 0.8*small.size, small.measure(l.name), small.size}
		if text.y > r.b.top && r.free(text) {
			r.c.text(small, text.x, y-4, "start", l.name)
			r.taken = append(r.taken, text)
		}
	}
}

// bars draws the stays, and the ways between them as lines.
func (r *track) bars() {
	p := &trace{}
	for i, s := range r.runs {
		y := r.b.y(r.stay[i].Latitude)
		left, right := r.x.at(float64(s.first)), r.x.at(float64(s.last+1))
		bar := box{left, y - 3.5, math.Max(2, right-left), 7}
		r.c.rect("solid", bar)
		r.taken = append(r.taken, bar)
		if i > 0 && r.runs[i-1].last+1 == s.first {
			p.move(left, r.b.y(r.stay[i-1].Latitude)).to(left, y)
		}
	}
	r.c.path("line", p)
}

// labels sets beside each bar what there is to say about the stay; of a stay that
// goes on over the turn of the year, beside the longer part.
func (r *track) labels() {
	for i, s := range r.runs {
		if r.longer(i) {
			continue
		}
		stay := r.stay[i]
		l := newLabel(words{}, 0, r.labelWide(), words{strong, s.place}, words{small, r.facts(stay)})
		if !r.place(i, l) {
			r.unsaid = append(r.unsaid, s.place+": "+r.facts(stay))
		}
	}
}

func (r *track) labelWide() float64 {
	if r.narrow {
		return 136
	}
	return 190
}

// longer reports whether another part of the same stay is longer.
func (r *track) longer(i int) bool {
	for k, s := range r.runs {
		own, other := r.runs[i].last-r.runs[i].first, s.last-s.first
		if k != i && s.place == r.runs[i].place && (other > own || other == own && k < i) {
			return true
		}
	}
	return false
}

// facts says where the stay lies and what the sun gives there.
func (r *track) facts(s *travel.Stay) string {
	text := q.DegreesNorth.Text(s.Latitude, r.units) + ", " + dayWords(s.From) + " to " + dayWords(s.To)
	if s.Days > 0 {
		text += ", sun " + energy(s.SunOffered/float64(s.Days), r.units) + " a day, lowest charge " + charge(s.SoCMin)
	}
	return text
}

// place finds room for a label above or below its bar.
func (r *track) place(i int, l label) bool {
	y := r.b.y(r.stay[i].Latitude)
	left, right := r.x.at(float64(r.runs[i].first)), r.x.at(float64(r.runs[i].last+1))
	for _, top := range []float64{y - 8 - l.height, y + 6} {
		for _, x := range []float64{left + 4, (left+right)/2 - l.width/2, right - l.width - 4, left + 4 - l.width/2, left - l.width - 8, right + 8} {
			at := box{x, top, l.width, l.height}
			if x < r.x.p0+2 || x+l.width > r.x.p1 || top < r.b.top || top+l.height > r.b.bottom || !r.free(at) || r.crossed(at) {
				continue
			}
			l.draw(r.c, x, top)
			r.taken = append(r.taken, at)
			return true
		}
	}
	return false
}

func (r *track) free(b box) bool {
	for _, t := range r.taken {
		if b.overlaps(t, 2) {
			return false
		}
	}
	return true
}

// crossed reports whether a way between stays or a line of the globe runs through
// a box.
func (r *track) crossed(b box) bool {
	for _, at := range []float64{66.56, 23.44, 0, -23.44, -66.56} {
		if y := r.b.y(at); r.b.holds(at) && y > b.y-2 && y < b.y+b.h+2 {
			return true
		}
	}
	for i := 1; i < len(r.runs); i++ {
		x := r.x.at(float64(r.runs[i].first))
		one, other := r.b.y(r.stay[i-1].Latitude), r.b.y(r.stay[i].Latitude)
		if x > b.x-3 && x < b.x+b.w+3 && math.Min(one, other) < b.y+b.h && math.Max(one, other) > b.y {
			return true
		}
	}
	return false
}

// below lists what found no room in the picture.
func (r *track) below(y float64) float64 {
	for _, text := range r.unsaid {
		y = caption(r.c, y, text+".")
	}
	return y
}

func describeRoute(res *travel.Result, o Options) string {
	var list []string
	for _, s := range res.Stays {
		list = append(list, s.Name+" at "+q.DegreesNorth.Text(s.Latitude, o.Units)+", "+dayWords(s.From)+" to "+dayWords(s.To))
	}
	return strings.Join(list, "; ") + "."
}
