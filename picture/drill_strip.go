package picture

import (
	"math"

	"ampstead/drill"
)

// Strip draws the traces of one run: the voltage of the cells with the limits
// behind, the current and the temperature of the bank, and over them, at its
// time, what each layer did.
func Strip(s *drill.Strip, o Options) string {
	c, height := playedStrip(s, o)
	return c.finish(o, height, stripTitle(s), describeStrip(s, o))
}

func playedStrip(s *drill.Strip, o Options) (*canvas, float64) {
	c := newCanvas("strip", o)
	r := newRun(c, s, o)
	if r == nil {
		return c, caption(c, 0, "There is no trace of this run.")
	}
	top := r.flags(r.events(), 0)
	tall, short := 190.0, 84.0
	if o.Low {
		tall, short = 140, 56
	}
	foot := r.volts(top+2, tall)
	foot = r.current(foot+16, short)
	foot = r.warmth(foot+16, short)
	r.poles(top-3, r.panels)
	return c, r.clock(foot) + 4
}

// playback is one run while it is drawn; its time axis counts seconds.
type playback struct {
	*chart
	s      *drill.Strip
	end    float64 // s at the right edge
	n      int     // points up to there
	flown  []pole
	panels []box // only y and h are used
}

// panel notes where a panel lies, for the poles.
func (r *playback) panel(b band) float64 {
	r.panels = append(r.panels, box{y: b.top, h: b.bottom - b.top})
	return b.bottom
}

// runAxis is the px left of the panels: room for four digits and a sign.
const runAxis = 52.0

// newRun prepares the axis; nil when there is nothing to draw.
func newRun(c *canvas, s *drill.Strip, o Options) *playback {
	if s == nil || len(s.Time) < 2 || !(s.Time[len(s.Time)-1] > 0) {
		return nil
	}
	r := &playback{chart: newChart(c, 1, o), s: s, end: shownTime(s)}
	for r.n < len(s.Time) && s.Time[r.n] <= r.end {
		r.n++
	}
	r.x.p0, r.x.v1 = runAxis, r.end
	return r
}

// shownTime is how much of a run is drawn: all of it, or, when everything that
// happens lies in its beginning, the time in which it does and as much again
// three times over.
func shownTime(s *drill.Strip) float64 {
	all := s.Time[len(s.Time)-1]
	last := math.Max(s.Out.HarmAt, s.Out.AlarmAt)
	for _, a := range s.Out.Acts {
		last = math.Max(last, a.At)
	}
	if last <= 0 || 4*last > 0.6*all {
		return all
	}
	return math.Max(4*last, 60)
}

// run gathers a trace into columns of pixels.
func (r *playback) run(low, high []float64) strand {
	var s strand
	for i := range min(r.n, len(low), len(high)) {
		x := r.x.at(r.s.Time[i])
		if k := len(s.x) - 1; k >= 0 && x-s.x[k] < leastColumn/2 {
			s.low[k], s.high[k] = math.Min(s.low[k], low[i]), math.Max(s.high[k], high[i])
			continue
		}
		s.x, s.low, s.high = append(s.x, x), append(s.low, low[i]), append(s.high, high[i])
	}
	return s
}

// volts draws the cells between the lowest and the highest group.
func (r *playback) volts(top, tall float64) float64 {
	top = r.title(top, "Cell voltage", r.voltsSaid())
	b := r.voltBand(top, tall)
	if b.low >= b.high {
		return top
	}
	r.beyond(b)
	r.axis(b, 26, tickText)
	cells := r.run(r.s.LowV, r.s.HighV)
	r.c.path("tone", cells.area(b))
	r.c.path("fine", cells.edge(b, cells.low))
	r.c.path("curve", cells.edge(b, cells.high))
	notes := r.limitNotes(b)
	if last := len(cells.x) - 1; last >= 0 {
		notes = append(notes, note{b.y(cells.high[last]), []words{{plain, r.brief("highest group", "highest")}}},
			note{b.y(cells.low[last]), []words{{small, r.brief("lowest group", "lowest")}}})
	}
	r.notes(b, notes)
	return r.panel(b)
}

func (r *playback) voltsSaid() string {
	o := &r.s.Out
	said := "up to " + volts(o.HighV)
	if o.Side == "low" {
		said = "down to " + volts(o.LowV)
	}
	if o.Outcome == drill.Harm && !o.InVolts() {
		return said
	}
	return said + ", " + o.Nearness()
}

func (r *playback) brief(full, short string) string {
	if r.narrow {
		return short
	}
	return full
}

// voltBand is the scale of the voltages: what the trace takes, and the limit it
// came nearest to.
func (r *playback) voltBand(top, tall float64) band {
	cells := r.run(r.s.LowV, r.s.HighV)
	low, high := cells.extent()
	if !(low <= high) || math.IsInf(low, 0) || math.IsInf(high, 0) {
		return band{}
	}
	near := math.Max(0.15, 0.5*(high-low))
	told := r.s.Out.InVolts()
	if told && r.s.Out.Side != "low" || r.s.HarmHi-high < near {
		high = math.Max(high, r.s.HarmHi)
	}
	if told && r.s.Out.Side == "low" || low-r.s.HarmLo < near {
		low = math.Min(low, r.s.HarmLo)
	}
	pad := math.Max(0.02, 0.08*(high-low))
	return band{low - pad, high + pad, top, top + tall}
}

// beyond fills what lies outside the cells' limits.
func (r *playback) beyond(b band) {
	wide := r.x.p1 - r.x.p0
	if r.s.HarmHi < b.high {
		y := b.y(r.s.HarmHi)
		r.c.rect("warn", box{r.x.p0, b.top, wide, y - b.top})
		r.c.line("strong", r.x.p0, y, r.x.p1, y)
	}
	if r.s.HarmLo > b.low {
		y := b.y(r.s.HarmLo)
		r.c.rect("warn", box{r.x.p0, y, wide, b.bottom - y})
		r.c.line("strong", r.x.p0, y, r.x.p1, y)
	}
}

func (r *playback) limitNotes(b band) []note {
	var list []note
	if r.s.HarmHi < b.high {
		list = append(list, note{b.y(r.s.HarmHi), []words{{alert, "harm above " + volts(r.s.HarmHi)}}})
	}
	if r.s.HarmLo > b.low {
		list = append(list, note{b.y(r.s.HarmLo), []words{{alert, "harm below " + volts(r.s.HarmLo)}}})
	}
	return list
}

func stripTitle(s *drill.Strip) string {
	if s == nil {
		return "One run"
	}
	name := s.Fault
	if name == "" {
		name = "nothing wrong"
	}
	if s.Second != "" {
		name += " and " + s.Second
	}
	return capital(name) + ": " + s.Scene
}

func describeStrip(s *drill.Strip, o Options) string {
	if s == nil {
		return ""
	}
	text := "Ended in " + endWords(&s.Out) + "."
	for _, e := range eventsOf(s) {
		text += " After " + drill.Lapse(e.at) + ": " + e.what + "."
	}
	return text
}
