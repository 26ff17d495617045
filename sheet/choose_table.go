package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/choose"
	q "ampstead/quantity"
)

// best says which of the numbers of a row is to be marked.
type best int

const (
	none best = iota
	least
	most
)

// compared is a property while the table is made: what it is called, how it is
// written, and the number by which the best is found; NaN is not known.
type compared struct {
	what   string
	text   func(c *choose.Candidate) string
	span   func(c *choose.Candidate) string
	number func(c *choose.Candidate) float64
	mark   best
}

// CompareTable are the properties of all batteries side by side.
func CompareTable(res *choose.Result, sys q.System) []CompareGroup {
	var list []CompareGroup
	for _, g := range []struct {
		title string
		rows  []compared
	}{{"What it is", whatItIs(sys)}, {"What it takes", whatItTakes(sys)}, {"For each kWh it can use", forEach(sys)}, {"On this route, a year now", onRoute(sys)}, {"Over its life", overLife(sys)}} {
		group := CompareGroup{Title: g.title}
		for _, row := range g.rows {
			group.Rows = append(group.Rows, row.of(res))
		}
		list = append(list, group)
	}
	return list
}

func (p compared) of(res *choose.Result) CompareRow {
	row := CompareRow{What: p.what, Rules: p.mark != none}
	for i := range res.Candidates {
		c := &res.Candidates[i]
		cell := CompareCell{Name: c.Name, Text: p.text(c)}
		if p.span != nil {
			cell.Range = p.span(c)
		}
		row.Cells = append(row.Cells, cell)
	}
	if p.mark != none {
		p.markBest(res, row.Cells)
	}
	return row
}

// markBest marks the best unless all are alike.
func (p compared) markBest(res *choose.Result, cells []CompareCell) {
	sign := 1.0
	if p.mark == most {
		sign = -1
	}
	top, bottom, known := math.Inf(1), math.Inf(-1), 0
	for i := range res.Candidates {
		if v := sign * p.number(&res.Candidates[i]); !math.IsNaN(v) {
			top, bottom, known = math.Min(top, v), math.Max(bottom, v), known+1
		}
	}
	if known < 2 || top == bottom {
		return
	}
	for i := range cells {
		cells[i].Best = sign*p.number(&res.Candidates[i]) == top
	}
}

// known makes what is zero where that means not known a number that is none.
func known(of func(c *choose.Candidate) float64) func(c *choose.Candidate) float64 {
	return func(c *choose.Candidate) float64 {
		if v := of(c); v > 0 {
			return v
		}
		return math.NaN()
	}
}

func whatItIs(sys q.System) []compared {
	return []compared{
		{what: "sold as", text: func(c *choose.Candidate) string { return c.Kind }},
		{what: "cell", text: func(c *choose.Candidate) string { return c.Cell }},
		{what: "in series, strings", text: func(c *choose.Candidate) string { return fmt.Sprintf("%d × %d", c.Series, c.Strings) }},
		{what: "voltage, empty to full", text: func(c *choose.Candidate) string { return between(c.LowV, c.HighV, 1) }},
		{what: "capacity now", text: func(c *choose.Candidate) string { return q.AmpereHours.Text(math.Round(c.CapacityAh), sys) }},
		{what: "capacity known", text: func(c *choose.Candidate) string { return c.Basis }},
		{what: "devices", text: devicesText},
	}
}

// devicesText says how the rig's devices suit.
func devicesText(c *choose.Candidate) string {
	exchange := 0
	for _, m := range c.Misfits {
		exchange += asOne(m.Exchange)
	}
	change := len(c.Misfits) - exchange
	switch {
	case exchange > 0 && change > 0:
		return fmt.Sprintf("%d must go, %d to change", exchange, change)
	case exchange > 0:
		return fmt.Sprintf("%d must go", exchange)
	case change > 0:
		return fmt.Sprintf("%d to change", change)
	case !c.Fits:
		return "do not suit"
	}
	return "all suit"
}

func usable(c *choose.Candidate) float64 { return c.UsableWh }

func whatItTakes(sys q.System) []compared {
	return []compared{
		{"usable energy", func(c *choose.Candidate) string { return energy(c.UsableWh, sys) }, func(c *choose.Candidate) string { return usableRange(c, sys) }, known(usable), most},
		{"mass", func(c *choose.Candidate) string { return mass(c.MassKg, sys) }, nil, known(func(c *choose.Candidate) float64 { return c.MassKg }), least},
		{"volume", func(c *choose.Candidate) string { return volume(c.VolumeL, sys) }, nil, known(func(c *choose.Candidate) float64 { return c.VolumeL }), least},
		{"price, fetched", func(c *choose.Candidate) string { return money(paid(c), c.Currency, 0) }, nil, known(paid), least},
	}
}

func paid(c *choose.Candidate) float64 {
	if !(c.Price > 0) {
		return 0
	}
	return c.Price + c.FetchCost
}

func usableRange(c *choose.Candidate, sys q.System) string {
	if c.UsableHigh-c.UsableLow < 0.01*c.UsableWh {
		return ""
	}
	low, high := energy(c.UsableLow, sys), energy(c.UsableHigh, sys)
	if number, unit, _ := strings.Cut(low, " "); strings.HasSuffix(high, " "+unit) {
		low = number
	}
	return low + " to " + high
}

func forEach(sys q.System) []compared {
	perUsable := func(c *choose.Candidate) float64 { return c.PerUsable }
	return []compared{
		{"price", func(c *choose.Candidate) string { return money(c.PerUsable, c.Currency, 0) }, nil, known(perUsable), least},
		{"mass ", func(c *choose.Candidate) string { return massPer(c.MassPer, sys) }, nil, known(func(c *choose.Candidate) float64 { return c.MassPer }), least},
		{"volume ", func(c *choose.Candidate) string { return volume(c.VolumePer, sys) }, nil, known(func(c *choose.Candidate) float64 { return c.VolumePer }), least},
	}
}

func onRoute(sys q.System) []compared {
	return []compared{
		{"hours short", func(c *choose.Candidate) string { return hoursOf(c.ShortHours) }, nil, func(c *choose.Candidate) float64 { return math.Round(c.ShortHours) }, least},
		{"energy not served", func(c *choose.Candidate) string { return energy(c.Unserved, sys) }, nil, func(c *choose.Candidate) float64 { return math.Round(c.Unserved / 100) }, least},
		{"lowest charge", func(c *choose.Candidate) string { return charge(c.SoCMin) }, nil, nil, none},
		{"coldest it may charge", func(c *choose.Candidate) string { return degrees(c.ColdChargeC, sys) }, nil, nil, none},
		{"charge locked by frost", func(c *choose.Candidate) string { return hoursOf(c.FrostHours) }, nil, func(c *choose.Candidate) float64 { return math.Round(c.FrostHours) }, least},
		{"sun lost to frost", func(c *choose.Candidate) string { return energy(c.FrostWh, sys) }, nil, nil, none},
		{"heater takes", func(c *choose.Candidate) string { return energy(c.HeaterWh, sys) }, nil, func(c *choose.Candidate) float64 { return math.Round(c.HeaterWh / 100) }, least},
	}
}

func overLife(sys q.System) []compared {
	perDelivered := func(c *choose.Candidate) float64 { return c.PerDelivered }
	rows := []compared{}
	for _, end := range []string{capacityEnd, functionEnd} {
		rows = append(rows, compared{"years " + end, func(c *choose.Candidate) string { return lifeText(c, end) }, func(c *choose.Candidate) string { return lifeRange(c, end) },
			func(c *choose.Candidate) float64 { middle, _, _ := lifeBand(c, end); return math.Round(10 * middle) }, most})
	}
	return append(rows,
		compared{"energy delivered", func(c *choose.Candidate) string { return energy(c.DeliveredWh, sys) }, nil, known(func(c *choose.Candidate) float64 { return c.DeliveredWh }), most},
		compared{"price of a kWh of it", func(c *choose.Candidate) string { return money(c.PerDelivered, c.Currency, 2) }, nil, known(perDelivered), least})
}

// kiloWattHours writes an amount for a sentence.
func kiloWattHours(wh float64) string { return strconv.FormatFloat(wh/1000, 'f', 1, 64) + " kWh" }
