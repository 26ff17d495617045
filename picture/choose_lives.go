package picture

import (
	"fmt"
	"math"

	"ampstead/choose"
)

// Lives draws the capacity of every battery over the years, each in its own frame
// with the band of its model and the others as hairlines, and where it ends: by
// capacity, and by the year on the road that leaves its people short.
func Lives(res *choose.Result, o Options) string {
	c, height := lives(res, o)
	return c.finish(o, height, "Capacity of each battery over the years", describeLives(res))
}

// lifetimes are the lives while they are drawn.
type lifetimes struct {
	c      *canvas
	res    *choose.Result
	years  float64 // across
	low    float64 // share at the foot
	narrow bool
}

func lives(res *choose.Result, o Options) (*canvas, float64) {
	c := newCanvas("lives", o)
	l := &lifetimes{c: c, res: res, narrow: o.narrow(), low: 0.5}
	var list []*choose.Candidate
	for i := range res.Candidates {
		if m := &res.Candidates[i]; l.takes(m) {
			list = append(list, m)
		}
	}
	if len(list) == 0 {
		return c, caption(c, 0, "The years ahead were not reckoned.")
	}
	l.years = math.Max(2, l.years)
	return c, l.grid(list)
}

// takes widens the scales for a life; false when there is none to draw.
func (l *lifetimes) takes(m *choose.Candidate) bool {
	if m.Life == nil || len(m.Life.Years) == 0 || !sound(m.Life.Start) {
		return false
	}
	l.years = math.Max(l.years, math.Min(40, float64(len(m.Life.Years))))
	for _, y := range m.Life.Years {
		if sound(y.Middle) && y.Middle > 0.3 {
			l.low = math.Min(l.low, y.Middle)
		}
	}
	return true
}

// grid sets the frames in rows.
func (l *lifetimes) grid(list []*choose.Candidate) float64 {
	each, gap := 1, 30.0
	if !l.narrow {
		each = 3
	}
	wide := (l.c.width - gap*float64(each-1)) / float64(each)
	y := 0.0
	for from := 0; from < len(list); from += each {
		row := list[from:min(len(list), from+each)]
		head := 0.0
		for i, m := range row {
			t := newLabel(words{}, 0, wide, words{strong, m.Name})
			t.draw(l.c, float64(i)*(wide+gap), y)
			head = math.Max(head, t.height)
		}
		for i, m := range row {
			l.frame(m, box{float64(i) * (wide + gap), y + head + 10, wide, 150})
		}
		y += head + 10 + 150 + 54
	}
	return y - 16
}

// frame draws one life.
func (l *lifetimes) frame(m *choose.Candidate, r box) {
	s := &scatter{c: l.c, x: linear{0, l.years, r.x + 44, r.x + r.w - 8}, y: band{math.Max(0, l.low-0.02), 1.04, r.y, r.y + r.h}}
	l.scales(s)
	for i := range l.res.Candidates {
		if o := &l.res.Candidates[i]; o != m && o.Life != nil {
			l.c.path("hair", course(s, o))
		}
	}
	l.c.path("wash", bandPath(s, m))
	end := s.y.y(m.Life.EndShare)
	if s.y.holds(m.Life.EndShare) {
		l.c.line("dash", s.x.p0, end, s.x.p1, end)
	}
	l.c.path("curve", course(s, m))
	l.ends(s, m)
}

func (l *lifetimes) scales(s *scatter) {
	lines := &trace{}
	for _, v := range ticks(s.y.low, s.y.high, 0.1) {
		if int(math.Round(10*v))%2 == 0 {
			lines.move(s.x.p0, s.y.y(v)).to(s.x.p1, s.y.y(v))
			l.c.text(tick, s.x.p0-6, s.y.y(v)+4, "end", percent(v))
		}
	}
	l.c.path("hair", lines)
	l.c.line("axis", s.x.p0, s.y.bottom, s.x.p1, s.y.bottom)
	every := math.Max(1, s.everyAcross(tickText))
	for _, v := range ticks(0, l.years, every) {
		text := tickText(v, every)
		if v == 0 {
			text = "now"
		}
		l.c.line("axis", s.x.at(v), s.y.bottom, s.x.at(v), s.y.bottom+4)
		l.c.text(tick, math.Min(s.x.at(v), s.x.p1+8-tick.measure(text)/2), s.y.bottom+18, "middle", text)
	}
	l.c.text(small, s.x.p1, s.y.bottom+33, "end", "years")
}

// course is the middle of a life.
func course(s *scatter, m *choose.Candidate) *trace {
	p := &pen{}
	p.lift(s.x.at(0), s.y.y(m.Life.Start))
	for i, y := range m.Life.Years {
		if float64(i+1) <= s.x.v1 && sound(y.Middle) {
			p.draw(s.x.at(float64(i+1)), s.y.y(y.Middle))
		}
	}
	return &p.trace
}

// bandPath is the band of a life.
func bandPath(s *scatter, m *choose.Candidate) *trace {
	strip := strand{x: []float64{s.x.at(0)}, low: []float64{startOf(m, m.Life.StartRange.Low)}, high: []float64{startOf(m, m.Life.StartRange.High)}}
	for i, y := range m.Life.Years {
		if float64(i+1) <= s.x.v1 && sound(y.Low) && sound(y.High) {
			strip.x, strip.low, strip.high = append(strip.x, s.x.at(float64(i+1))), append(strip.low, y.Low), append(strip.high, y.High)
		}
	}
	return strip.area(s.y)
}

func startOf(m *choose.Candidate, v float64) float64 {
	if sound(v) && v > 0 {
		return v
	}
	return m.Life.Start
}

// shareAt is the middle of the capacity at an age.
func shareAt(m *choose.Candidate, age float64) float64 {
	at, from := m.Life.Start, 0.0
	for i, y := range m.Life.Years {
		to := float64(i + 1)
		if age <= to {
			return at + (y.Middle-at)*(age-from)/(to-from)
		}
		at, from = y.Middle, to
	}
	return at
}

// ends marks both ends of a life, and names them.
func (l *lifetimes) ends(s *scatter, m *choose.Candidate) {
	type end struct {
		at    float64
		class string
		style style
		text  string
	}
	var list []end
	if v := m.ByFunction; !beyond(m, "by function") && sound(v) && v >= 0 && v <= l.years {
		list = append(list, end{v, "hot", hot, shortText(v)})
	}
	if v := m.ByCapacity; !beyond(m, "by capacity") && sound(v) && v >= 0 && v <= l.years {
		list = append(list, end{v, "bare", plain, fmt.Sprintf("%s left: %s years", percent(m.Life.EndShare), yearsWords(reach{middle: v}))})
	}
	for _, e := range list {
		x, y := s.x.at(e.at), s.y.y(shareAt(m, e.at))
		l.c.dot(e.class, x, y, 5)
		s.taken(x, y, 5)
	}
	l.alongCurve(s, m)
	for _, e := range list {
		s.name(s.x.at(e.at), s.y.y(shareAt(m, e.at)), 5, newLabel(words{}, 0, 190, words{e.style, e.text}), newLabel(words{}, 0, 110, words{e.style, e.text}))
	}
	if beyond(m, "by function") {
		age := math.Min(l.years, float64(len(m.Life.Years)))
		x, y := s.x.at(0.6*age), s.y.y(shareAt(m, 0.6*age))
		text := fmt.Sprintf("not short in %d years", len(m.Life.Years))
		s.name(x, y, 2, newLabel(words{}, 0, 190, words{plain, text}), newLabel(words{}, 0, 110, words{plain, text}))
	}
	if beyond(m, "by capacity") && s.y.holds(m.Life.EndShare) {
		s.name(s.x.at(0.3*l.years), s.y.y(m.Life.EndShare), 0, newLabel(words{}, 0, 190, words{small, percent(m.Life.EndShare) + " left: its end by capacity"}))
	}
}

// alongCurve keeps labels off the line itself.
func (l *lifetimes) alongCurve(s *scatter, m *choose.Candidate) {
	last := math.Min(s.x.v1, float64(len(m.Life.Years)))
	for x := s.x.at(0); x <= s.x.at(last); x += 6 {
		age := (x - s.x.p0) / (s.x.p1 - s.x.p0) * s.x.v1
		s.taken(x, s.y.y(shareAt(m, age)), 2)
	}
	if s.y.holds(m.Life.EndShare) {
		for x := s.x.p0; x <= s.x.p1; x += 8 {
			s.taken(x, s.y.y(m.Life.EndShare), 1)
		}
	}
}

func shortText(years float64) string {
	if years < 0.05 {
		return "short from the start"
	}
	return "short after " + yearsWords(reach{middle: years}) + " years"
}

func describeLives(res *choose.Result) string {
	text := ""
	for i := range res.Candidates {
		m := &res.Candidates[i]
		if m.Life == nil {
			continue
		}
		text += m.Name + ": from " + percent(m.Life.Start)
		if beyond(m, "by function") {
			text += ", not short in the years followed"
		} else {
			text += ", " + shortText(m.ByFunction)
		}
		if !beyond(m, "by capacity") {
			text += ", " + percent(m.Life.EndShare) + " left after " + yearsWords(reach{middle: m.ByCapacity}) + " years"
		}
		text += ". "
	}
	return text
}
