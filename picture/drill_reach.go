package picture

import (
	"math"
	"strings"

	"ampstead/drill"
)

// The axis of margins ends where nothing more is to be told, mV.
const (
	mostMargin = 300.0
	deepMargin = -250.0
)

// leastMargin is the deepest margin of the drill that the axis shows.
func (m *grid) leastMargin() float64 {
	least := -40.0
	for _, r := range m.rows {
		for _, o := range r.Cells {
			if o != nil {
				least = math.Min(least, 1.1*o.MarginMV)
			}
		}
	}
	return math.Max(deepMargin, least)
}

// margins draws how near the scenes of a row came, the worst as a dot, and says
// it.
func (m *grid) margins(y float64, r *drill.Row) {
	worst, style := m.worst(r)
	if worst == nil {
		return
	}
	m.c.text(style, m.values, y+4.5, "end", style.fit(valueWide, worst.Nearness(), harmBrief(worst)))
	if !m.distance {
		return
	}
	ticks := &trace{}
	for _, o := range r.Cells {
		if o != nil && o != worst && o.MarginMV <= m.reach.v1 && o.MarginMV >= m.reach.v0 {
			ticks.move(m.reach.at(o.MarginMV), y-4).by(0, 8)
		}
	}
	m.c.path("axis", ticks)
	if v := worst.MarginMV; worst.InVolts() && v <= m.reach.v1 {
		m.c.dot(dotClass(style), m.reach.at(math.Max(v, m.reach.v0)), y, 3.4)
	}
}

// worst is the run of a row that is told beside it, and the style to tell it in:
// pale when no scene ends otherwise than by itself.
func (m *grid) worst(r *drill.Row) (*drill.Outcome, style) {
	o := r.Telling(&m.plain)
	switch {
	case r.Fault.Name == "" && r.Worst != nil:
		o = r.Worst
	case o == nil:
		return r.Worst, small
	}
	if o.Outcome == drill.Harm {
		return o, hot
	}
	return o, plain
}

func dotClass(s style) string {
	switch s {
	case hot:
		return "hot"
	case small:
		return "faint"
	}
	return "solid"
}

// harmLine draws where harm begins, through all rows.
func (m *grid) harmLine(top, bottom float64) {
	if !m.distance {
		return
	}
	x := m.reach.at(0)
	m.c.line("strong", x, top+4, x, bottom)
	m.c.line("dash", m.reach.p1, top+4, m.reach.p1, bottom)
}

// harmBrief is the first word of what came to harm, for where little fits.
func harmBrief(o *drill.Outcome) string {
	if o.InVolts() {
		return millivolts(o.MarginMV)
	}
	brief, _, _ := strings.Cut(o.Harm, " ")
	return brief
}

// fit is the first wording that fits; of the last, as much as does.
func (s style) fit(width float64, wordings ...string) string {
	lines := s.wrap(s.longest(width, wordings...), width)
	if len(lines) == 0 {
		return ""
	}
	return lines[0]
}

// reachEnds names the ends of the axis of margins under its head.
func (m *grid) reachEnds(y float64) float64 {
	if !m.distance {
		return y + 4
	}
	m.c.text(alert, m.reach.at(0), y+13, "middle", "harm")
	m.c.text(tick, m.reach.p1, y+13, "middle", tickText(mostMargin, 1))
	return y + 16
}

// endWords says in a few words how a run ended.
func endWords(o *drill.Outcome) string {
	said := o.Outcome.Words()
	if o.FirstLayer != "" {
		said += ", first " + o.FirstLayer + " after " + drill.Lapse(o.FirstAt)
	}
	said += ", " + o.Nearness()
	if o.Silent {
		said += ", silent"
	}
	return said
}
