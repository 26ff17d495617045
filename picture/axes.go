package picture

const tickPx = 27.0 // least distance between ticks

// axes draws the cell's volts on the left and the bank's on the right.
func (p *panel) axes(c *canvas) {
	for _, b := range p.bands() {
		p.axis(c, b, p.left, 1)
		p.axis(c, b, p.right, p.series)
	}
}

// axis draws one part of a scale at x; times turns cell volts into its own.
func (p *panel) axis(c *canvas, b band, x, times float64) {
	lines := (&trace{}).move(x, b.top).to(x, b.bottom)
	anchor, out := "end", -5.0
	if x == p.right {
		anchor, out = "start", 5
	}
	every := voltStep(tickPx/p.perVolt*times, b.high*times)
	for _, v := range ticks(b.low*times, b.high*times, every) {
		y := b.y(v / times)
		if y < b.top+5 || y > b.bottom-5 {
			continue
		}
		lines.move(x, y).by(out*0.7, 0)
		c.text(tick, x+out*1.4, y+4, anchor, tickText(v, every))
	}
	c.path("axis", lines)
}

// voltStep is the step of ticks at least least apart, coarse enough that the
// longest of them fits beside its axis.
func voltStep(least, highest float64) float64 {
	every := step(least)
	for range 6 {
		if tick.measure(tickText(highest, every)) <= axisWide-8 {
			break
		}
		every = step(every * 1.5)
	}
	return every
}
