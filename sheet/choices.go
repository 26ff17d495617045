package sheet

import (
	"fmt"

	q "ampstead/quantity"
)

// Choice is a wider or narrower daily window and what it costs.
type Choice struct {
	Name   string
	Cell   string
	Energy Number
	Share  string
	Ageing string
	Fits   bool
	Why    string
}

func (b *builder) choices() []Choice {
	var list []Choice
	for _, c := range b.res.Choices {
		list = append(list, Choice{Name: c.Name, Cell: between(c.CellLowV, c.CellHighV, 3), Energy: b.number(q.WattHours.Text(c.UsableWh, b.sys), c.How),
			Share: percent(c.EnergyShare), Ageing: stress(c.MeanStress), Fits: c.Fits, Why: c.Why})
	}
	return list
}

func stress(factor float64) string {
	if factor == 0 {
		return "no model for this cell"
	}
	return fmt.Sprintf("%.2f times", factor)
}

// Mark is a temperature at which something acts.
type Mark struct {
	Temp                     Number
	Range, Name, Device, Why string
}

func (b *builder) marks() []Mark {
	var list []Mark
	for _, w := range b.res.Warmth {
		m := Mark{Temp: b.number(b.temperature(w.TempC), w.How), Name: w.Name, Device: w.Device, Why: w.Because}
		if w.LowC != w.HighC {
			m.Range = b.temperature(w.LowC) + " to " + b.temperature(w.HighC)
		}
		list = append(list, m)
	}
	return list
}

// temperature shows °C or °F to a tenth, as no thermostat is finer.
func (b *builder) temperature(c float64) string {
	unit := q.Celsius.Show(c, b.sys)
	shown, _ := q.Celsius.In(c, unit)
	return q.Celsius.Fixed(c, unit, places(shown, 0, 1))
}
