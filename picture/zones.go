package picture

import (
	"math"

	"ampstead/fit"
)

// zone is a range of voltage with a meaning of its own.
type zone struct {
	name      string
	low, high float64
	ground    string  // class that fills the whole width, "" for none
	lines     float64 // px between the lines that shade its column, 0 for none
	slanted   bool    // the lines slant: harm
}

// zonesOf lists the zones from the top. Their bounds are the recommended
// set-points, so they meet the rungs of the recommended ladder.
func zonesOf(res *fit.Result, lim limits) []zone {
	at := map[string]float64{}
	for _, l := range res.Layers {
		at[l.Name] = l.SetV
	}
	low, high := daily(res, lim)
	zones := []zone{
		{name: "harm", low: lim.high, high: math.Inf(1), ground: "warn", lines: 7, slanted: true},
		{name: "daily window", low: low, high: high, ground: "wash"},
		{name: "harm", low: math.Inf(-1), high: lim.low, ground: "warn", lines: 7, slanted: true},
	}
	side := func(inner, harm float64, alarm, disconnect string) {
		cut, cuts := at[disconnect]
		if !cuts {
			cut = harm
		}
		cut = between(cut, inner, harm)
		if v, warns := at[alarm]; warns {
			zones = append(zones, span("alarm", between(v, inner, cut), cut, 6))
		}
		zones = append(zones, span("disconnected", cut, harm, 3))
	}
	side(high, lim.high, fit.AlarmHigh, fit.DisconnHigh)
	side(low, lim.low, fit.AlarmLow, fit.DisconnLow)
	return zones
}

func span(name string, a, b, lines float64) zone {
	return zone{name: name, low: math.Min(a, b), high: math.Max(a, b), lines: lines}
}

// between holds v within a and b, whichever of them is lower.
func between(v, a, b float64) float64 {
	return math.Max(math.Min(a, b), math.Min(v, math.Max(a, b)))
}

// strip is the part of the width that the zones colour: one a lane, the first
// with the column of the zones' names.
type strip struct{ left, right float64 }

func (p *panel) strips() []strip {
	var list []strip
	for i, l := range p.lanes {
		left := l.x
		if i == 0 {
			left = p.left
		}
		list = append(list, strip{left, l.x + l.wide})
	}
	return list
}

// grounds draws the zones, the torn gaps between the parts and what they say.
func (p *panel) grounds(c *canvas, zones []zone) {
	for _, shelf := range []box{p.shelfTop, p.shelfBottom} {
		p.fill(c, zones[0], shelf.y, shelf.y+shelf.h)
	}
	for _, b := range p.bands() {
		for _, z := range zones {
			if z.low < b.high && z.high > b.low {
				p.fill(c, z, b.y(z.high), b.y(z.low))
			}
		}
		for _, v := range []float64{p.lim.low, p.lim.high} {
			for _, s := range p.strips() {
				if b.holds(v) {
					c.line("strong", s.left, b.y(v), s.right, b.y(v))
				}
			}
		}
	}
	p.tornEdges(c)
}

// fill draws one zone between two heights.
func (p *panel) fill(c *canvas, z zone, top, bottom float64) {
	if z.ground != "" {
		for _, s := range p.strips() {
			c.rect(z.ground, box{s.left, top, s.right - s.left, bottom - top})
		}
	}
	p.shade(c, z, top, bottom)
	if p.named(z, top, bottom) {
		p.zoneName(c, z, (top+bottom)/2)
	}
}

// named says whether a zone's name has room in its column.
func (p *panel) named(z zone, top, bottom float64) bool {
	return bottom-top >= 16 && small.measure(z.name)+4 <= p.zoneWide
}

// zoneName writes the name in the middle of the column. Slanted lines are
// covered by the ground behind it; level ones leave room by themselves.
func (p *panel) zoneName(c *canvas, z zone, y float64) {
	s, x := small, p.left+p.zoneWide/2
	if z.slanted {
		s = style{"accent", small.size, small.wide}
		w := s.measure(z.name) + 8
		c.rect(z.ground, box{x - w/2, y - 8, w, 16})
	}
	c.text(s, x, y+4, "middle", z.name)
}

// shade draws the lines of a zone's column.
func (p *panel) shade(c *canvas, z zone, top, bottom float64) {
	if z.lines == 0 || bottom-top < 1 {
		return
	}
	if z.slanted {
		for _, s := range p.strips() {
			c.path("shade bad", slanted(s.left, s.right, top, bottom, z.lines))
		}
		return
	}
	t := &trace{}
	left, right, w := p.left, p.left+p.zoneWide, small.measure(z.name)+4
	named := p.named(z, top, bottom)
	for y := top + z.lines/2; y < bottom; y += z.lines {
		if !named || math.Abs(y-(top+bottom)/2) > 7 {
			t.move(left, y).to(right, y)
			continue
		}
		mid := (left + right) / 2
		t.move(left, y).to(mid-w/2, y).move(mid+w/2, y).to(right, y)
	}
	c.path("shade", t)
}

// slanted fills a rectangle with rising lines.
func slanted(left, right, top, bottom, every float64) *trace {
	t, tall := &trace{}, bottom-top
	for x := left - tall + every; x < right; x += every {
		from, to := math.Max(0, left-x), math.Min(tall, right-x) // along the slant, from its foot
		t.move(x+from, bottom-from).by(to-from, from-to)
	}
	return t
}

// tornEdges marks the gaps where the scale is interrupted, and says what is
// missing in the first lane that has something to say there.
func (p *panel) tornEdges(c *canvas) {
	for _, top := range p.tears() {
		for _, s := range p.strips() {
			c.path("torn", zigzag(s.left, s.right, top))
			c.path("torn", zigzag(s.left, s.right, top+tear))
		}
		text, brief, x := "further out, not to scale", "not to scale", p.lanes[len(p.lanes)-1].labelX
		if p.broken() && top == p.upper.bottom {
			span := millivolts(1000 * (p.upper.low - p.lower.high))
			text, brief, x = span+" of the daily window left out", span+" left out", p.lanes[0].labelX
		}
		c.text(small, x, top+tear/2+4, "start", small.longest(p.right-x, text, brief))
	}
}

// zigzag is a torn edge from left to right.
func zigzag(left, right, y float64) *trace {
	const deep = 3.0
	teeth := math.Max(2, 2*math.Round((right-left)/14))
	t := (&trace{}).move(left, y)
	for i, way := 1.0, 1.0; i < teeth; i, way = i+1, -way {
		t.by((right-left)/teeth, deep*way)
	}
	return t.to(right, y)
}
