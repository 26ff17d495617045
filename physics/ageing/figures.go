package ageing

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure { return []*figure.Figure{CycleCount, Ageing} }

// CycleCount is "cycle-count".
var CycleCount = &figure.Figure{
	Name:    "cycle-count",
	Answers: "Which cycles, and how many of each, does a series of highs and lows hold?",
	Inputs: []figure.Input{{Name: "series", Dim: quantity.Plain, List: true,
		Doc: "values in order, such as states of charge; only peaks and valleys count", Example: "-2,1,-3,5,-1,3,-4,4,-2"}},
	Outputs: []figure.Output{
		{Key: "counts", Doc: "each range with its count, smallest first"},
		{Key: "cycles", Doc: "each cycle in the order it closes"},
		{Key: "total", Dim: quantity.Plain, Doc: "cycles in all"},
	},
	Equation: "newest range X, the one before Y: X < Y, read on; Y holds the starting point, count Y as a half and drop that point; " +
		"else count Y as one and drop both its points; what is left counts as halves",
	Source: source.Rainflow,
	Range:  "any series; counts are exact",
	Compute: func(a figure.Args) (figure.Results, error) {
		series, err := a.List("series", quantity.Plain)
		if err != nil {
			return nil, err
		}
		cycles, total := Count(series), 0.0
		for _, c := range cycles {
			total += c.Count
		}
		return figure.Results{"counts": Totals(cycles), "cycles": cycles, "total": total}, nil
	},
	Checks: []figure.Check{
		{Source: source.Rainflow, Note: "worked sequence, totals", In: worked, Output: "counts",
			Expected: "range 3, count 0.5; range 4, count 1.5; range 6, count 0.5; range 8, count 1; range 9, count 0.5"},
		{Source: source.Rainflow, Note: "worked sequence, sum", In: worked, Output: "total", Expected: 4.0},
	},
}

// worked is the standard's sequence.
var worked = []string{"series=-2,1,-3,5,-1,3,-4,4,-2"}

// Ageing is "ageing".
var Ageing = &figure.Figure{
	Name:    "ageing",
	Answers: "What is left of a new cell after this storage and use, by this model?",
	Inputs: []figure.Input{
		{Name: "model", Doc: "by name: schmalstieg, schmalstieg-nca, naumann, wang2011, wang2014, xu, lead-acid-flooded, lead-acid-agm", Default: "schmalstieg", Example: "naumann"},
		{Name: "temperature", Dim: quantity.Celsius, Doc: "of the cell", Default: "25 °C"},
		{Name: "soc", Dim: quantity.Fraction, Doc: "mean state of charge", Default: "50 %"},
		{Name: "days", Dim: quantity.Plain, Doc: "in all, cycling or not", Default: "365"},
		{Name: "cycles", Dim: quantity.Plain, Doc: "in that time", Default: "0"},
		{Name: "depth", Dim: quantity.Fraction, Doc: "of each cycle", Default: "50 %"},
		{Name: "c-rate", Dim: quantity.PerHour, Doc: "mean of charge and discharge, current over capacity", Default: "0.5 C"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "mean rest voltage of a cell; 0: from the model's curve at soc", Default: "0 V"},
		{Name: "rms-voltage", Dim: quantity.Volts, Doc: "quadratic mean voltage while cycling; 0: from the curve over the cycle", Default: "0 V"},
	},
	Outputs: []figure.Output{
		{Key: "capacity_fraction", Dim: quantity.Fraction, Doc: "left of new, as the model has it"},
		{Key: "resistance_factor", Dim: quantity.Plain, Doc: "on the resistance when new; absent for a model that says nothing of it"},
		{Key: "calendar_loss_fraction", Dim: quantity.Fraction, Doc: "of it taken by time"},
		{Key: "cycle_loss_fraction", Dim: quantity.Fraction, Doc: "of it taken by use"},
		{Key: "capacity_low_fraction", Dim: quantity.Fraction, Doc: "left with the most loss of the spread against open data"},
		{Key: "capacity_high_fraction", Dim: quantity.Fraction, Doc: "left with the least"},
		{Key: "model_equation", Doc: "of the model named"},
		{Key: "model_source", Doc: "where it comes from"},
		{Key: "fitted_to", Doc: "the cells it was fitted to, and what it counts"},
		{Key: "outside", Doc: "where this use left the range it was fitted over"},
		{Key: "silent", Doc: "what it says nothing about"},
	},
	Equation: "capacity = 1 − calendar loss − cycle loss (lead-acid: 1 − the greater), each by the equation of the model named",
	Source:   source.AgeingModels,
	Range:    "fits to one kind of cell each, months of tests carried on to years; see outside and the spread, and docs/ageing.md for the error against open data",
	Compute:  aged,
	Checks:   ageingChecks(),
}

func aged(a figure.Args) (figure.Results, error) {
	m, err := Lookup(a.Text("model"))
	if err != nil {
		return nil, err
	}
	s, err := stressOf(a)
	if err != nil {
		return nil, err
	}
	l := m.Start()
	l.Add(s)
	calendar, cycling := l.Lost()
	out := figure.Results{
		"capacity_fraction": l.Capacity(), "calendar_loss_fraction": calendar, "cycle_loss_fraction": cycling,
		"capacity_low_fraction": left(m.Scaled(m.Band.High), s), "capacity_high_fraction": left(m.Scaled(m.Band.Low), s),
		"model_equation": m.Equation, "model_source": m.Source.Text + " (" + string(m.Source.Standing) + ")",
		"fitted_to": m.FittedTo + "; " + m.Covers, "outside": l.Outside(), "silent": m.Silent,
	}
	if factor, ok := l.Resistance(); ok {
		out["resistance_factor"] = factor
	}
	return out, nil
}

// left is the capacity of a new cell after a stress.
func left(m *Model, s Stress) float64 {
	l := m.Start()
	l.Add(s)
	return l.Capacity()
}

func stressOf(a figure.Args) (Stress, error) {
	s := Stress{Days: a.Num("days"), SoC: a.Num("soc"), CellV: a.Num("voltage"), RmsV: a.Num("rms-voltage"), TempC: a.Num("temperature"),
		Depth: a.Num("depth"), Throughput: a.Num("cycles") * a.Num("depth"), CRate: a.Num("c-rate")}
	for _, limit := range []struct {
		name      string
		v         float64
		low, high float64
	}{
		{"temperature", s.TempC, -60, 80}, {"soc", s.SoC, 0, 1}, {"days", s.Days, 0, 36525}, {"cycles", a.Num("cycles"), 0, 1e6},
		{"depth", s.Depth, 0, 1}, {"c-rate", s.CRate, 0, 20}, {"voltage", s.CellV, 0, 5}, {"rms-voltage", s.RmsV, 0, 5},
	} {
		if !(limit.v >= limit.low && limit.v <= limit.high) {
			return Stress{}, fmt.Errorf("%s %g is not between %g and %g: %w", limit.name, limit.v, limit.low, limit.high, figure.ErrRange)
		}
	}
	return s, nil
}
