package picture

import (
	"fmt"
	"math"
	"strings"
	"time"

	"ampstead/travel"
)

// Months draws the energy of each month as a column: what came in, and on top of
// it the sun that was offered and lost, each with its own hatching. A stepped
// line is what the appliances asked for. On a phone each share has a row of its
// own, all to one scale.
func Months(res *travel.Result, o Options) string {
	c, height := months(res, o)
	return c.finish(o, height, "Energy by month", describeMonths(res, o))
}

func months(res *travel.Result, o Options) (*canvas, float64) {
	c := newCanvas("months", o)
	m := newStack(c, res, o)
	if m == nil {
		return c, caption(c, 0, "No energy was reckoned.")
	}
	if m.narrow {
		return c, m.apart()
	}
	foot := m.layout()
	m.axis(m.b, 40, func(v, every float64) string { return tickText(v, every) })
	for i := range res.Months {
		m.column(i)
	}
	m.asked()
	m.flags()
	m.names(foot, m.starts(), m.titles())
	return c, foot + 20
}

// part is one share of the columns.
type part struct {
	name  string
	of    func(e *travel.Energies) float64
	fill  string                                      // class of its ground
	hatch func(left, right, top, foot float64) *trace // nil for none
	lines string                                      // class of the hatching
	sum   float64                                     // of the year, Wh
}

// shares lists the parts from the foot of a column: what came in, then what was
// lost of the sun.
func shares() []part {
	type e = travel.Energies
	return []part{
		{name: "alternator", of: func(m *e) float64 { return m.Alternator }, fill: "bare", hatch: upright(3), lines: "shade"},
		{name: "mains", of: func(m *e) float64 { return m.Mains }, fill: "bare", hatch: flat(3), lines: "shade"},
		{name: "caught from the sun", of: func(m *e) float64 { return m.SunCaught }, fill: "tone"},
		{name: "lost in the solar charger", of: func(m *e) float64 { return m.Conversion }, fill: "wash"},
		{name: "lost to frost", of: func(m *e) float64 { return m.LostFrost }, fill: "warn", hatch: rising(5), lines: "shade bad"},
		{name: "lost while a guard held it off", of: func(m *e) float64 { return m.LostStopped }, fill: "warn"},
		{name: "lost to the charger's limit", of: func(m *e) float64 { return m.LostLimit }, fill: "bare", hatch: flat(6), lines: "shade"},
		{name: "lost, bank full", of: func(m *e) float64 { return m.LostFull }, fill: "bare", hatch: rising(9), lines: "shade"},
	}
}

func rising(every float64) func(left, right, top, foot float64) *trace {
	return func(left, right, top, foot float64) *trace { return slanted(left, right, top, foot, every) }
}

func flat(every float64) func(left, right, top, foot float64) *trace {
	return func(left, right, top, foot float64) *trace {
		t := &trace{}
		for y := foot - every; y > top; y -= every {
			t.move(left, y).by(right-left, 0)
		}
		return t
	}
}

func upright(every float64) func(left, right, top, foot float64) *trace {
	return func(left, right, top, foot float64) *trace {
		t := &trace{}
		for x := left + every; x < right; x += every {
			t.move(x, top).by(0, foot-top)
		}
		return t
	}
}

// stack is the picture of months while it is drawn. Its values are kWh.
type stack struct {
	*chart
	res   *travel.Result
	parts []part
	b     band
	most  float64
	above float64 // px from the top to where the columns may begin
	set   []flag
}

const barely = 0.004 // share of the highest column below which a part is not drawn

func newStack(c *canvas, res *travel.Result, o Options) *stack {
	m := &stack{chart: newChart(c, len(res.Months), o), res: res}
	m.x.p1 = c.width - 4
	all := shares()
	for i := range res.Months {
		tall := 0.0
		for k := range all {
			v := math.Max(0, all[k].of(&res.Months[i].Energies))
			tall, all[k].sum = tall+v, all[k].sum+v
		}
		m.most = math.Max(m.most, math.Max(tall, res.Months[i].Load)/1000)
	}
	if !(m.most > 0) {
		return nil
	}
	m.most = math.Max(m.most, 1) // a scale in parts of a kWh says nothing
	m.x.p0 = math.Max(m.x.p0, tick.measure(tickText(1.02*m.most, 1))+8)
	for _, p := range all {
		if p.sum/1000 > barely*m.most {
			m.parts = append(m.parts, p)
		}
	}
	return m
}

// layout makes room for the flags and places the columns below them.
func (m *stack) layout() float64 {
	top := m.title(0, "Energy by month", "kWh")
	m.above = top
	head := m.plan()
	m.b = band{0, m.most * 1.02, top + head, top + head + 300}
	return m.b.bottom
}

// starts are the edges of the columns, in months.
func (m *stack) starts() []int {
	list := make([]int, len(m.res.Months))
	for i := range list {
		list[i] = i
	}
	return list
}

func (m *stack) titles() []string {
	var list []string
	for _, month := range m.res.Months {
		list = append(list, time.Month(month.Month).String()[:3])
	}
	return list
}

// sides are the edges of a column.
func (m *stack) sides(i int) (left, right float64) {
	left, right = m.x.at(float64(i)), m.x.at(float64(i+1))
	gap := math.Min(9, 0.13*(right-left))
	return left + gap, right - gap
}

// bounds is where a part of a column begins and ends, kWh.
func (m *stack) bounds(month, part int) (from, to float64) {
	for k := 0; k <= part; k++ {
		from = to
		to += math.Max(0, m.parts[k].of(&m.res.Months[month].Energies)) / 1000
	}
	return from, to
}

func (m *stack) column(i int) {
	left, right := m.sides(i)
	for k, p := range m.parts {
		from, to := m.bounds(i, k)
		top, foot := m.b.y(to), m.b.y(from)
		if foot-top < 0.2 {
			continue
		}
		m.c.rect(p.fill, box{left, top, right - left, foot - top})
		if p.hatch != nil {
			m.c.path(p.lines, p.hatch(left, right, top, foot))
		}
	}
}

// asked draws what the appliances asked for as a stepped line, and in the accent
// what they did not get.
func (m *stack) asked() {
	p := &pen{}
	for i := range m.res.Months {
		e := &m.res.Months[i].Energies
		left, right := m.x.at(float64(i)), m.x.at(float64(i+1))
		y := m.b.y(e.Load / 1000)
		if i == 0 {
			p.lift(left, y)
		}
		p.draw(left, y).draw(right, y)
		if e.Unserved >= leastWh {
			m.c.rect("hot", box{left, y, right - left, math.Max(1.5, m.b.y(e.Served/1000)-y)})
		}
	}
	m.c.path("curve", &p.trace)
}

func describeMonths(res *travel.Result, o Options) string {
	var list []string
	for _, m := range res.Months {
		list = append(list, fmt.Sprintf("%s: caught %s, asked for %s, not served %s, lost to frost %s", time.Month(m.Month), energy(m.SunCaught, o.Units),
			energy(m.Load, o.Units), energy(m.Unserved, o.Units), energy(m.LostFrost, o.Units)))
	}
	return strings.Join(list, "; ") + "."
}
