package picture

import (
	"fmt"
	"math"
	"slices"

	"ampstead/keep"
)

// Drift draws how far the groups stood apart at each visit, and below it the
// charge of every group against the median one, with the slope of those that
// drift.
func Drift(res *keep.Result, o Options) string {
	c, height := drift(res, o)
	return c.finish(o, height, "Groups against time", describeDrift(res))
}

const driftTall, spreadTall, tickEvery = 250.0, 110.0, 30.0 // px

func drift(res *keep.Result, o Options) (*canvas, float64) {
	c := newCanvas("drift", o)
	points := trendOf(res)
	if len(points) < 2 {
		return c, caption(c, 0, "Two readings at rest make the first trend.")
	}
	d := newDriftChart(c, res, points, o)
	_, high := extentOf([]provenRow{d.apart})
	apart := band{0, math.Max(1, 1.08*high), 0, spreadTall}
	low, high := extentOf(d.lines)
	low, high = math.Min(0, low), math.Max(0, high)
	pad := math.Max(0.05, 0.06*(high-low))
	off := band{low - pad, high + pad, 0, driftTall}
	d.room(apart, tickEvery)
	left := d.x.p0
	d.room(off, tickEvery)
	d.x.p0 = math.Max(left, d.x.p0)
	foot := d.spread(0, apart)
	return c, d.offsets(foot+10, off)
}

// from moves a panel down to where it begins.
func (b band) from(top float64) band {
	b.top, b.bottom = top, top+b.bottom-b.top
	return b
}

// driftChart holds what both panels need.
type driftChart struct {
	*chart
	res   *keep.Result
	when  logTime
	at    []float64 // days of each point
	lines []provenRow
	apart provenRow // mV
}

func newDriftChart(c *canvas, res *keep.Result, points []keep.Point, o Options) *driftChart {
	var taken []string
	for _, p := range points {
		taken = append(taken, p.Taken)
	}
	when, _ := newLogTime(taken)
	d := &driftChart{res: res, when: when, chart: logChart(c, o, 0, when.span())}
	groups := 0
	for _, p := range points {
		d.at = append(d.at, when.days(p.Taken))
		d.apart.v = append(d.apart.v, bounded(p.MV))
		groups = max(groups, len(p.Groups))
	}
	for k := range groups {
		row := provenRow{group: k + 1}
		for _, p := range points {
			v := math.NaN()
			if k < len(p.Groups) {
				v = bounded(p.Groups[k])
			}
			row.v = append(row.v, v)
		}
		d.lines = append(d.lines, row)
	}
	return d
}

// bounded turns what could not be drawn into a missing value.
func bounded(v float64) float64 {
	if !plausible(v) {
		return math.NaN()
	}
	return v
}

// place is where point i lies, px.
func (d *driftChart) place(i int) float64 { return d.x.at(d.at[i]) }

func (d *driftChart) spread(y float64, b band) float64 {
	b = b.from(d.title(y, "Apart, mV", "the highest group less the lowest, at like conditions"))
	d.axis(b, tickEvery, tickText)
	d.c.path("curve", d.apart.along(d.place, b))
	d.dots("solid", d.apart, b)
	if _, last := d.apart.ends(); !math.IsNaN(last) {
		d.notes(b, []note{{b.y(last), []words{{strong, millivolts(last)}}}})
	}
	d.frame(b)
	return b.bottom
}

// frame closes a panel with its base line.
func (d *driftChart) frame(b band) { d.c.line("axis", d.x.p0, b.bottom, d.x.p1, b.bottom) }

const mostDots = 120 // more only blur a line

func (d *driftChart) dots(class string, l provenRow, b band) {
	if len(l.v) > mostDots {
		return
	}
	for i, v := range l.v {
		if !missing(v) {
			d.c.dot(class, d.place(i), b.y(v), 2.4)
		}
	}
}

func (d *driftChart) offsets(y float64, b band) float64 {
	b = b.from(d.title(y, "Charge against the median group, Ah", driftSaid(d.res)))
	d.axis(b, tickEvery, tickText)
	d.c.line("axis", d.x.p0, b.y(0), d.x.p1, b.y(0))
	for _, l := range d.lines {
		if d.drifts(l.group) {
			continue
		}
		d.c.path("fine", l.along(d.place, b))
	}
	for _, l := range d.lines {
		g := d.group(l.group)
		if g == nil || !g.Drifts {
			continue
		}
		d.c.path("curve bad", l.along(d.place, b))
		d.dots("hot", l, b)
		d.slope(*g, b)
	}
	d.notes(b, d.named(b))
	return d.dates(d.when, b.bottom+4)
}

func (d *driftChart) group(n int) *keep.Group {
	for i := range d.res.Groups {
		if d.res.Groups[i].Number == n {
			return &d.res.Groups[i]
		}
	}
	return nil
}

// slope draws the line of a group's leak, back from where it stands today to where
// it left the others, to the step there was, or to the first reading.
func (d *driftChart) slope(g keep.Group, b band) {
	to, from := d.at[len(d.at)-1], d.at[0]
	perDay := -g.DriftMA * 24 / 1000 // Ah
	if missing(g.OffsetAh) || missing(perDay) || perDay == 0 {
		return
	}
	if left := to - g.OffsetAh/perDay; left > from && left < to {
		from = left
	}
	if g.Step != nil {
		if at := d.when.days(g.Step.At); at > from && at < to {
			from = at
		}
	}
	before := g.OffsetAh - perDay*(to-from)
	if !b.holds(before) || !b.holds(g.OffsetAh) {
		return // a line bent at the edge would tell another slope
	}
	d.c.line("strong ghost", d.x.at(from), b.y(before), d.x.at(to), b.y(g.OffsetAh))
}

// named names the groups that drift, then the lowest and the highest, as many as
// there is room for, and counts the others.
func (d *driftChart) named(b band) []note {
	ends := endsOf(d.lines)
	if len(ends) == 0 {
		return nil
	}
	order := slices.Clone(ends)
	slices.SortStableFunc(order, func(a, b ending) int { return d.rank(a, ends) - d.rank(b, ends) })
	var list []note
	room := b.bottom - b.top + 8 - small.leading() - labelGap
	for i, e := range order {
		n := d.driftNote(b, e, d.drifts(e.group))
		if room -= d.label(n).height + labelGap; room < 0 {
			return append(list, note{b.y(0), []words{{small, counted(len(order)-i, "more group")}}})
		}
		list = append(list, n)
	}
	return list
}

// rank is smaller the more a group needs its name beside its line.
func (d *driftChart) rank(e ending, ends []ending) int {
	switch {
	case d.drifts(e.group):
		return 0
	case e == ends[0] || e == ends[len(ends)-1]:
		return 1
	}
	return 2
}

func (d *driftChart) drifts(group int) bool {
	g := d.group(group)
	return g != nil && g.Drifts
}

func (d *driftChart) driftNote(b band, e ending, drifts bool) note {
	name, value := e.name, signedAh(e.v)
	if !drifts {
		return note{b.y(e.v), []words{{plain, name + " " + value}}}
	}
	leak := ""
	if g := d.group(e.group); g != nil {
		leak = leakWords(*g)
	}
	return note{b.y(e.v), []words{{hot, name + " " + value}, {alert, leak}}}
}

func leakWords(g keep.Group) string {
	if !plausible(g.DriftMA) {
		return ""
	}
	if g.DriftMA < 0 {
		return fmt.Sprintf("gains %.1f mA", -g.DriftMA)
	}
	return fmt.Sprintf("leaks %.1f mA", g.DriftMA)
}

func signedAh(v float64) string {
	if v = math.Round(10*v) / 10; v < 0 {
		return fmt.Sprintf("−%.1f Ah", -v)
	}
	return fmt.Sprintf("+%.1f Ah", v+0)
}

func driftSaid(res *keep.Result) string {
	var names []string
	for _, g := range res.Groups {
		if g.Drifts {
			names = append(names, fmt.Sprint(g.Number))
		}
	}
	switch len(names) {
	case 0:
		return "no group drifts that these readings could tell"
	case 1:
		return "group " + names[0] + " drifts; dashes are its slope"
	}
	return "groups " + listing(names) + " drift; dashes are their slopes"
}

func describeDrift(res *keep.Result) string {
	text := fmt.Sprintf("%s; now %s apart; ", counted(len(trendOf(res)), "reading"), millivolts(res.SpreadMV))
	for i, g := range res.Groups {
		if i == 24 {
			text += "and more; "
			break
		}
		text += groupName(g.Number) + " " + signedAh(g.OffsetAh)
		if g.Drifts {
			text += ", " + leakWords(g)
		}
		text += "; "
	}
	return text + driftSaid(res) + "."
}
