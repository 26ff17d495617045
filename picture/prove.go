package picture

import (
	"math"
	"strconv"

	"ampstead/prove"
)

// provenRun is what was done in the log that a picture of the discharge shows:
// one line for each group, or one of the whole.
type provenRun struct {
	ah    []float64   // charge drawn since it began, Ah
	lines []provenRow // in order of the groups; group 0 is the whole
	cycle prove.Cycle
}

// provenRow is the course of one group, as long as what it is drawn over.
type provenRow struct {
	group int
	v     []float64
}

// provenDischarge takes the latest discharge from full to the limit out of the
// chart, or the longest one when none is full; false without any.
func provenDischarge(res *prove.Result) (provenRun, bool) {
	best := provenRun{}
	found := false
	for _, c := range res.Cycles {
		switch {
		case c.Kind != "discharge", found && best.cycle.Full && !c.Full:
		case !found, c.Full, c.ChargeAh > best.cycle.ChargeAh:
			best.cycle, found = c, true
		}
	}
	if !found {
		best.cycle, found = provenStretch(res)
	}
	from, to := provenSpan(res.Chart.Time, best.cycle.From, best.cycle.To)
	for still := stillness(res.Chart.Amps); to-from > 2 && still(to-1); {
		to-- // the voltage that comes back after the load is not of the discharge
	}
	if !found || to-from < 2 || len(res.Chart.Ah) < to {
		return best, false
	}
	for _, ah := range res.Chart.Ah[from:to] {
		best.ah = append(best.ah, res.Chart.Ah[from]-ah)
	}
	best.lines = provenLines(&res.Chart, from, to)
	return best, len(best.lines) > 0
}

// provenStretch is the discharge of most charge where no cycle was made out.
func provenStretch(res *prove.Result) (prove.Cycle, bool) {
	best, found := prove.Cycle{Kind: "discharge"}, false
	for _, s := range res.Segments {
		if s.Kind == "discharge" && -s.ChargeAh > best.ChargeAh {
			best.From, best.To, best.ChargeAh, found = s.From, s.To, -s.ChargeAh, true
		}
	}
	return best, found
}

// provenSpan gives the instants from..to-1 of a stretch, with the one before it.
func provenSpan(at []float64, from, to float64) (first, last int) {
	first = len(at)
	for i, t := range at {
		if t >= from && i < first {
			first = i
		}
		if t <= to {
			last = i + 1
		}
	}
	if first > 0 && first < len(at) && from-at[first-1] < 120 {
		first--
	}
	return first, max(first, last)
}

// provenLines are the voltages of the groups, or of the whole without them.
func provenLines(c *prove.Chart, from, to int) []provenRow {
	var list []provenRow
	for k, v := range c.Groups {
		if len(v) >= to {
			list = append(list, provenRow{k + 1, v[from:to]})
		}
	}
	if len(list) == 0 && len(c.Volts) >= to {
		list = append(list, provenRow{0, c.Volts[from:to]})
	}
	return list
}

// ends are the first and the last value there is; NaN without any.
func (l provenRow) ends() (first, last float64) {
	first, last = math.NaN(), math.NaN()
	for _, v := range l.v {
		if missing(v) {
			continue
		}
		if math.IsNaN(first) {
			first = v
		}
		last = v
	}
	return first, last
}

func (l provenRow) name() string {
	if l.group == 0 {
		return "at the terminals"
	}
	return groupName(l.group)
}

func groupName(n int) string { return "group " + strconv.Itoa(n) }

// extentOf is the lowest and highest value of all lines.
func extentOf(lines []provenRow) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, l := range lines {
		for _, v := range l.v {
			if !missing(v) {
				low, high = math.Min(low, v), math.Max(high, v)
			}
		}
	}
	if low > high {
		return 0, 1
	}
	return low, high
}

func missing(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }

// room moves the panels right as far as the ticks of b need.
func (t *chart) room(b band, least float64) {
	every, wide := step(least*(b.high-b.low)/(b.bottom-b.top)), 0.0
	for _, v := range ticks(b.low, b.high, every) {
		wide = math.Max(wide, tick.measure(tickText(v, every)))
	}
	t.x.p0 = math.Min(wide+10, t.c.width/3)
}

// along draws a line through its points, as few of them as keep it within half a
// pixel; where a value is missing it is broken.
func (l provenRow) along(x func(i int) float64, b band) *trace {
	p := &pen{}
	var px, py []float64
	flush := func() {
		for k, i := range outline(px, py, 0.5) {
			if k == 0 {
				p.lift(px[i], py[i])
			} else {
				p.draw(px[i], py[i])
			}
		}
		px, py = px[:0], py[:0]
	}
	for i, v := range l.v {
		if missing(v) || missing(x(i)) {
			flush()
			continue
		}
		px, py = append(px, x(i)), append(py, b.y(v))
	}
	flush()
	return &p.trace
}

// outline picks the points that a line through x, y needs so as to lie within
// near of all of them: it splits at the farthest until none is farther.
func outline(x, y []float64, near float64) []int {
	if len(x) == 0 {
		return nil
	}
	keep := make([]bool, len(x))
	keep[0], keep[len(x)-1] = true, true
	spans := [][2]int{{0, len(x) - 1}}
	for len(spans) > 0 {
		s := spans[len(spans)-1]
		spans = spans[:len(spans)-1]
		if i, d := farthest(x, y, s[0], s[1]); d > near {
			keep[i] = true
			spans = append(spans, [2]int{s[0], i}, [2]int{i, s[1]})
		}
	}
	var list []int
	for i, k := range keep {
		if k {
			list = append(list, i)
		}
	}
	return list
}

// farthest finds the point between a and b that lies farthest from their chord.
func farthest(x, y []float64, a, b int) (at int, d float64) {
	dx, dy := x[b]-x[a], y[b]-y[a]
	long := math.Max(math.Hypot(dx, dy), 1e-9)
	at = a
	for i := a + 1; i < b; i++ {
		away := math.Abs(dx*(y[i]-y[a])-dy*(x[i]-x[a])) / long
		if dx == 0 && dy == 0 {
			away = math.Hypot(x[i]-x[a], y[i]-y[a])
		}
		if away > d {
			at, d = i, away
		}
	}
	return at, d
}
