package picture

import "ampstead/drill"

// Glimpse draws a run small, to stand among others: its name, the voltage of the
// cells with the limits behind, and when layers acted.
func Glimpse(s *drill.Strip, o Options) string {
	c, height := glimpse(s, o)
	return c.finish(o, height, stripTitle(s), describeStrip(s, o))
}

func glimpse(s *drill.Strip, o Options) (*canvas, float64) {
	c := newCanvas("glimpse", o)
	r := newRun(c, s, o)
	if r == nil {
		return c, caption(c, 0, "There is no trace of this run.")
	}
	end := small
	if s.Out.Outcome == drill.Harm {
		end = alert
	}
	l := newLabel(words{}, 0, c.width-20, words{strong, stripTitle(s)}, words{end, endWords(&s.Out)})
	outcomeMark(c, 7, 9, s.Out.Outcome, false, s.Out.Silent)
	l.draw(c, 20, 0)
	b := r.voltBand(l.height+8, 92)
	if b.low >= b.high {
		return c, l.height + 4
	}
	r.beyond(b)
	r.axis(b, 30, tickText)
	cells := r.run(s.LowV, s.HighV)
	c.path("tone", cells.area(b))
	c.path("curve", cells.edge(b, cells.high))
	for _, e := range eventsOf(s) {
		if e.at <= r.end {
			x := r.x.at(e.at)
			c.line(marked("dash", e.harm), x, b.top, x, b.bottom)
		}
	}
	r.notes(b, r.limitNotes(b))
	return c, r.clock(b.bottom) + 4
}
