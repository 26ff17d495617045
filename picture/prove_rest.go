package picture

import (
	"fmt"
	"math"
	"slices"

	"ampstead/prove"
)

// RestDecay draws how the voltage of every group moved while the battery rested:
// at first it relaxes, and only what goes on afterwards can be a leak.
func RestDecay(res *prove.Result, o Options) string {
	c, height := restDecay(res, o)
	return c.finish(o, height, "Voltage at rest", describeRest(res))
}

func restDecay(res *prove.Result, o Options) (*canvas, float64) {
	c := newCanvas("rest", o)
	rest, lines, hours := provenRest(res)
	if len(lines) == 0 {
		return c, caption(c, 0, "The log has no rest long enough to draw.")
	}
	t := newChart(c, 1, o)
	t.x.v1 = math.Max(hours[len(hours)-1], 1e-3)
	top := t.title(0, "Change at rest, mV", restSaid(rest))
	low, high := extentOf(lines)
	low, high = math.Min(0, low), math.Max(0, high)
	pad := math.Max(0.5, 0.06*(high-low))
	b := band{low - pad, high + pad, top, top + 220}
	t.room(b, 30)
	t.axis(b, 30, tickText)
	t.c.line("axis", t.x.p0, b.y(0), t.x.p1, b.y(0))
	for _, l := range lines {
		class := "fine"
		if l.group == 0 {
			class = "curve"
		}
		t.c.path(class, l.along(func(i int) float64 { return t.x.at(hours[i]) }, b))
	}
	t.notes(b, t.restNotes(b, lines))
	return c, t.foot(b.bottom, "hours")
}

// provenRest takes the longest rest: its hours and how far each line moved in mV
// since it began.
func provenRest(res *prove.Result) (prove.Rest, []provenRow, []float64) {
	var best prove.Rest
	for _, r := range res.Rests {
		if r.Hours > best.Hours {
			best = r
		}
	}
	from, to := 0, 0
	still := stillness(res.Chart.Amps)
	for i, at := range res.Chart.Time {
		if at < best.From {
			from = i + 1
		}
		if at <= best.From+best.Hours*3600 && still(i) {
			to = i + 1
		}
	}
	if best.Hours <= 0 || to-from < 3 {
		return best, nil, nil
	}
	var hours []float64
	for _, at := range res.Chart.Time[from:to] {
		hours = append(hours, (at-best.From)/3600)
	}
	return best, changes(provenLines(&res.Chart, from, to)), hours
}

// stillness tells the instants without current, for a rest shares its last
// instant with the load after it. A fiftieth of the greatest current is none: a
// meter has its offset.
func stillness(amps []float64) func(i int) bool {
	most := 0.0
	for _, a := range amps {
		if !missing(a) {
			most = math.Max(most, math.Abs(a))
		}
	}
	return func(i int) bool { return i < len(amps) && math.Abs(amps[i]) <= most/50 }
}

// changes turns voltages into mV since the first.
func changes(lines []provenRow) []provenRow {
	for k, l := range lines {
		first, _ := l.ends()
		moved := make([]float64, len(l.v))
		for i, v := range l.v {
			moved[i] = 1e3 * (v - first)
		}
		lines[k].v = moved
	}
	return lines
}

func restSaid(r prove.Rest) string {
	text := fmt.Sprintf("over %s h", short(r.Hours))
	switch {
	case r.Settled:
		return text + ", settled at its end"
	case r.Bound:
		return text + ", still relaxing at its end: a leak has only an upper bound"
	}
	return text
}

// restNotes name every line where it ends, or the two that moved least and most
// with the number of the others.
func (t *chart) restNotes(b band, lines []provenRow) []note {
	list := endsOf(lines)
	if float64(len(list))*(t.label(t.restNote(b, list[0])).height+labelGap) <= b.bottom-b.top+8 {
		var out []note
		for _, l := range list {
			out = append(out, t.restNote(b, l))
		}
		return out
	}
	last := len(list) - 1
	between := list[1:last]
	out := []note{t.restNote(b, list[0]), t.restNote(b, list[last])}
	if len(between) > 0 {
		out = append(out, note{b.y(between[len(between)/2].v), []words{{plain, counted(len(between), "more group")}}})
	}
	return out
}

func (t *chart) restNote(b band, l ending) note {
	name, value := l.name, signedMillivolts(l.v)
	if t.narrow {
		if l.group == 0 {
			name = "whole"
		}
		return note{b.y(l.v), []words{{plain, name}, {small, value}}}
	}
	return note{b.y(l.v), []words{{plain, name + " " + value}}}
}

func signedMillivolts(mv float64) string {
	text := fmt.Sprintf("%+.1f mV", mv)
	if math.Abs(mv) >= 100 {
		text = fmt.Sprintf("%+.0f mV", mv)
	}
	if mv < 0 {
		return "−" + text[1:]
	}
	return text
}

func describeRest(res *prove.Result) string {
	rest, lines, _ := provenRest(res)
	if len(lines) == 0 {
		return "No rest."
	}
	text := "Rest " + restSaid(rest) + ": "
	for _, l := range endsOf(slices.Clone(lines)) {
		text += l.name + " " + signedMillivolts(l.v) + "; "
	}
	return text + "since it began."
}
