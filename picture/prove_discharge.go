package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/prove"
	q "ampstead/quantity"
)

// Discharge draws the voltage of every group over the charge drawn, with the
// ends marked: which group came to the low limit first, and what the others
// still had.
func Discharge(res *prove.Result, o Options) string {
	c, height := discharge(res, o)
	return c.finish(o, height, "The discharge of every group", describeDischarge(res))
}

func discharge(res *prove.Result, o Options) (*canvas, float64) {
	c := newCanvas("discharge", o)
	run, ok := provenDischarge(res)
	if !ok {
		return c, caption(c, 0, "The log has no discharge to draw.")
	}
	t := newChart(c, 1, o)
	t.x.v1 = 1e-3
	for _, ah := range run.ah {
		if !missing(ah) {
			t.x.v1 = math.Max(t.x.v1, ah)
		}
	}
	d := &drawnRun{chart: t, run: run, res: res}
	top := t.title(0, d.titled(), d.said())
	foot := d.panel(top)
	return c, d.foot(foot, "Ah")
}

// drawnRun is the picture while it is drawn.
type drawnRun struct {
	*chart
	run provenRun
	res *prove.Result
}

func (d *drawnRun) titled() string {
	if d.run.lines[0].group == 0 {
		return "Voltage at the terminals"
	}
	return "Voltage of each group"
}

func (d *drawnRun) said() string {
	text := ""
	if d.res.Limiting > 0 && d.run.lines[0].group > 0 {
		text = groupName(d.res.Limiting) + " ends the discharge, after "
	}
	return text + q.AmpereHours.Fixed(d.run.cycle.ChargeAh, "Ah", 1) + meanCurrent(d.res, d.run.cycle)
}

// meanCurrent says the current of a discharge that had one.
func meanCurrent(res *prove.Result, c prove.Cycle) string {
	for _, s := range res.Segments {
		if s.Kind == "discharge" && s.From >= c.From-1 && s.To <= c.To+1 && -s.ChargeAh > 0.9*c.ChargeAh {
			return " at " + short(math.Abs(s.MeanA)) + " A"
		}
	}
	return ""
}

// limit is the low limit of what the lines show: of a cell, or of the whole.
func (d *drawnRun) limit() float64 {
	if d.run.lines[0].group > 0 || d.res.Series == 1 {
		return d.res.Low
	}
	return d.res.Low * float64(d.res.Series)
}

func (d *drawnRun) panel(top float64) float64 {
	low, high := extentOf(d.run.lines)
	limit := d.limit()
	if limit > 0 {
		low = math.Min(low, limit)
	}
	pad := math.Max(0.05, 0.05*(high-low))
	b := band{low - pad, high + pad, top, top + 320}
	if d.narrow {
		b.bottom = top + 300
	}
	d.room(b, 30)
	d.axis(b, 30, tickText)
	if limit > 0 {
		d.c.line("dash", d.x.p0, b.y(limit), d.x.p1, b.y(limit))
		d.c.text(small, d.x.p0+6, b.y(limit)-5, "start", "low limit "+volts(limit))
	}
	for _, l := range d.ordered() {
		d.course(b, l)
	}
	d.notes(b, d.endNotes(b))
	return b.bottom
}

// ordered puts the group that ends the discharge last, on top of the others.
func (d *drawnRun) ordered() []provenRow {
	list := slices.Clone(d.run.lines)
	slices.SortStableFunc(list, func(a, b provenRow) int {
		return boolOrder(a.group == d.res.Limiting) - boolOrder(b.group == d.res.Limiting)
	})
	return list
}

func boolOrder(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (d *drawnRun) course(b band, l provenRow) {
	x := func(i int) float64 { return d.x.at(d.run.ah[i]) }
	class, mark := "fine", "solid"
	if l.group > 0 && l.group == d.res.Limiting {
		class, mark = "curve bad", "hot"
	}
	if l.group == 0 {
		class = "curve"
	}
	d.c.path(class, l.along(x, b))
	if _, last := l.ends(); !math.IsNaN(last) {
		d.c.dot(mark, x(len(l.v)-1), b.y(last), 3)
	}
}

// endNotes name the lines where they end, or, where there is no room for all, the
// one that ends the discharge, the highest, and the range of the rest.
func (d *drawnRun) endNotes(b band) []note {
	list := endsOf(d.run.lines)
	each := 0.0
	for _, l := range list {
		each += d.label(d.endNote(b, l)).height + labelGap
	}
	if each > b.bottom-b.top+8+labelGap {
		return d.fewNotes(b, list)
	}
	var out []note
	for _, l := range list {
		out = append(out, d.endNote(b, l))
	}
	return out
}

// ending is a line with where it ends.
type ending struct {
	group int
	name  string
	v     float64
}

func endsOf(lines []provenRow) []ending {
	var list []ending
	for _, l := range lines {
		if _, last := l.ends(); !math.IsNaN(last) {
			list = append(list, ending{l.group, l.name(), last})
		}
	}
	slices.SortStableFunc(list, func(a, b ending) int { return orderOf(a.v, b.v) })
	return list
}

func orderOf(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func (d *drawnRun) endNote(b band, l ending) note {
	name := plain
	if l.group > 0 && l.group == d.res.Limiting {
		name = hot
	}
	value := fmt.Sprintf("%.3f V", l.v)
	if d.narrow {
		return note{b.y(l.v), []words{{name, l.name}, {small, value}}}
	}
	return note{b.y(l.v), []words{{name, l.name + " " + value}}}
}

func (d *drawnRun) fewNotes(b band, list []ending) []note {
	last := len(list) - 1
	out := []note{d.endNote(b, list[0]), d.endNote(b, list[last])}
	rest := list[1:last]
	if i := slices.IndexFunc(rest, func(l ending) bool { return l.group == d.res.Limiting }); i >= 0 {
		out = append(out, d.endNote(b, rest[i]))
		rest = slices.Concat(rest[:i], rest[i+1:])
	}
	if len(rest) > 0 {
		text := fmt.Sprintf("%.2f to %.2f V", rest[0].v, rest[len(rest)-1].v)
		out = append(out, note{b.y(rest[len(rest)/2].v), []words{{plain, counted(len(rest), "more group")}, {small, text}}})
	}
	return out
}

// foot draws the ticks of the charge or of time below the panel.
func (t *chart) foot(y float64, unit string) float64 {
	every := step(48 * (t.x.v1 - t.x.v0) / (t.x.p1 - t.x.p0))
	lines := &trace{}
	for _, v := range ticks(t.x.v0, t.x.v1, every) {
		text, x := tickText(v, every), t.x.at(v)
		lines.move(x, y).by(0, 4)
		t.c.text(tick, x, y+17, "middle", text)
	}
	t.c.path("axis", lines.move(t.x.p0, y).to(t.x.p1, y))
	t.c.text(tick, t.gutterAt, y+17, "start", unit)
	return y + 24
}

func describeDischarge(res *prove.Result) string {
	run, ok := provenDischarge(res)
	if !ok {
		return "No discharge."
	}
	var list []string
	for _, l := range endsOf(run.lines) {
		list = append(list, fmt.Sprintf("%s ends at %.3f V", l.name, l.v))
	}
	if len(list) > 24 {
		list = append(list[:24], "and more")
	}
	return "After " + q.AmpereHours.Fixed(run.cycle.ChargeAh, "Ah", 1) + ": " + strings.Join(list, "; ") + "."
}
