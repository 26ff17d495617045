package picture

import "math"

// drawLane draws rails, rungs, bars, leaders and labels of one lane.
func (p *panel) drawLane(c *canvas, l *drawnLane) {
	for _, b := range p.bands() {
		c.line("hair", l.x, b.top, l.x, b.bottom)
		c.line("hair", l.x+l.wide, b.top, l.x+l.wide, b.bottom)
	}
	i := 0
	take := func(belongs func(at float64) bool) (from, to int) {
		from = i
		for i < len(l.rungs) && belongs(l.rungs[i].at) {
			i++
		}
		return from, i
	}
	from, to := take(func(at float64) bool { return at > p.upper.high })
	p.drawShelf(c, l, from, to, p.shelfTop, -1)
	if p.broken() {
		from, to = take(func(at float64) bool { return at >= p.middle })
		p.drawPart(c, l, from, to, p.upper)
	}
	from, to = take(func(at float64) bool { return at >= p.lower.low })
	p.drawPart(c, l, from, to, p.lower)
	p.drawShelf(c, l, i, len(l.rungs), p.shelfBottom, 1)
}

// drawPart draws the rungs from..to-1, which lie on one part of the scale.
func (p *panel) drawPart(c *canvas, l *drawnLane, from, to int, b band) {
	var want, size []float64
	for i := from; i < to; i++ {
		want = append(want, b.y(l.rungs[i].at)-middle)
		size = append(size, l.labels[i].height)
	}
	tops := spread(want, size, labelGap, b.top+2, b.bottom-2)
	for i := from; i < to; i++ {
		r, top, y := l.rungs[i], tops[i-from], b.y(l.rungs[i].at)
		leader(c, "leader", l.x+l.wide, y, l.x+l.wide+6, l.labelX, top+middle)
		for k, one := range r.bars {
			drawBar(c, l.x+6+p.pitch*(float64(l.columns[i][k])+0.5), one, b, r.bad)
		}
		p.drawRung(c, l, r, y)
		if r.bad {
			c.dot("hot", l.labelX-6, top+middle, 2.8)
		}
		l.labels[i].draw(c, l.labelX, top)
	}
}

func (p *panel) drawRung(c *canvas, l *drawnLane, r rung, y float64) {
	class := marked("rung", r.bad || r.harm)
	if r.unset {
		class += " ghost"
	}
	c.line(class, l.x, y, l.x+l.wide, y)
}

// drawShelf lists rungs that lie beyond the scale, with arrows the way they lie.
func (p *panel) drawShelf(c *canvas, l *drawnLane, from, to int, shelf box, way float64) {
	y := shelf.y + shelfPads/2
	for i := from; i < to; i++ {
		at := y + middle
		x := l.x + l.wide/2
		c.line("strong", l.x, at, l.x+l.wide, at)
		c.path("hot", (&trace{}).move(x, at+9*way).to(x-5, at+2*way).to(x+5, at+2*way).close())
		leader(c, "leader", l.x+l.wide, at, l.x+l.wide+6, l.labelX, at)
		c.dot("hot", l.labelX-6, at, 2.8)
		l.labels[i].draw(c, l.labelX, y)
		y += l.labels[i].height + labelGap
	}
}

// drawBar draws the thin worst-case bar with end strokes and the thick likely
// one on it. Where a bar leaves the part of the scale it has no end stroke.
func drawBar(c *canvas, x float64, one bar, b band, bad bool) {
	if one.high < b.low || one.low > b.high || !(one.high > one.low) {
		return
	}
	top, bottom := b.y(one.high), b.y(one.low)
	t := (&trace{}).move(x, top).to(x, bottom)
	if b.holds(one.high) {
		t.move(x-3.5, top).to(x+3.5, top)
	}
	if b.holds(one.low) {
		t.move(x-3.5, bottom).to(x+3.5, bottom)
	}
	c.path(marked("reach", bad), t)
	if one.likelyHigh > one.likelyLow && one.likelyHigh > b.low && one.likelyLow < b.high {
		top, bottom = b.y(math.Min(one.likelyHigh, one.high)), b.y(math.Max(one.likelyLow, one.low))
		c.path(marked("likely", bad), (&trace{}).move(x, top).to(x, bottom))
	}
}

// marked is the class of a stroke, in the accent when it is bad.
func marked(class string, bad bool) string {
	if bad {
		return class + " bad"
	}
	return class
}
