package cell

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// CalendarStress is the figure that compares resting voltages by how fast they
// age a cell.
var CalendarStress = &figure.Figure{
	Name:    "calendar-stress",
	Answers: "How much faster does a cell age at rest at this voltage than at another?",
	Inputs: []figure.Input{
		with(ofCell, "nmc532"),
		input("voltage", quantity.Volts, "cell voltage it rests at"),
		input("reference", quantity.Volts, "cell voltage to compare with"),
		with(input("temperature", quantity.Celsius, "cell temperature, for the two rates; their ratio does not depend on it"), "25 °C"),
	},
	Outputs: []figure.Output{
		output("factor", quantity.Plain, "calendar ageing at voltage over that at reference"),
		output("alpha", quantity.Plain, "capacity lost per day to the power 0.75, at voltage"),
		output("alpha_reference", quantity.Plain, "the same at reference"),
	},
	Equation: "factor = α(voltage)/α(reference), α = (7.543·V − 23.75)·1e6·exp(−6976/T), T in kelvin, zero below 3.149 V; loss = α·days^0.75",
	Source:   source.Schmalstieg,
	Range: "fitted to one 2.05 Ah nickel-manganese-cobalt cell, 35 to 50 °C (from memory); other nickel and manganese cells by likeness only; " +
		"held constant below 25 °C; not for iron-phosphate or lead-acid",
	Compute: calendarStress,
	Checks: []figure.Check{
		check(source.Schmalstieg, "3.699 V, 50 °C", "alpha", 1.749362e-3, 1e-8, "voltage=3.699 V", "reference=3.7 V", "temperature=50 °C"),
		check(source.Schmalstieg, "3.699 V, 25 °C", "alpha", 2.862558e-4, 1e-9, "voltage=3.699 V", "reference=3.7 V"),
		check(source.Schmalstieg, "3.699 V, 35 °C", "alpha", 6.116615e-4, 1e-9, "voltage=3.699 V", "reference=3.7 V", "temperature=35 °C"),
		check(source.Schmalstieg, "4.162 V, 50 °C", "alpha", 3.220976e-3, 1e-8, "voltage=4.162 V", "reference=3.7 V", "temperature=50 °C"),
		check(source.Schmalstieg, "4.162 V, 25 °C", "alpha", 5.270625e-4, 1e-9, "voltage=4.162 V", "reference=3.697 V"),
		check(source.Schmalstieg, "4.162 V against 3.697 V", "factor", 5.270625e-4/2.852156e-4, 1e-5, "voltage=4.162 V", "reference=3.697 V"),
	},
}

func calendarStress(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	if !c.HasCalendarModel() {
		return nil, fmt.Errorf("no calendar model by voltage for %s cells: %w", c.Family, figure.ErrRange)
	}
	here, there := a.Num("voltage"), a.Num("reference")
	if err := within("voltage", here, 2, 4.4, "V"); err != nil {
		return nil, err
	}
	if err := within("reference", there, 3.2, 4.4, "V"); err != nil {
		return nil, err
	}
	temp := a.Num("temperature")
	if err := within("temperature", temp, -60, 80, "°C"); err != nil {
		return nil, err
	}
	at, ref := CalendarAlpha(here, temp), CalendarAlpha(there, temp)
	return figure.Results{"factor": at / ref, "alpha": at, "alpha_reference": ref}, nil
}

// HasCalendarModel reports whether CalendarStress holds for the cell: nickel and
// manganese kinds only.
func (c *Cell) HasCalendarModel() bool { return c.Family == NCA || c.Family == NMC || c.Family == LMO }

// CalendarAlpha is α of Schmalstieg et al. 2014: a cell resting at a voltage (V)
// and temperature loses α·days^0.75 of its capacity. Held at its 25 °C value
// below that, where it was not fitted, and at zero below 3.149 V.
func CalendarAlpha(voltage, tempC float64) float64 {
	kelvin := max(tempC, 25) + zeroC
	return max(0, (7.543*voltage-23.75)*1e6*math.Exp(-6976/kelvin))
}
