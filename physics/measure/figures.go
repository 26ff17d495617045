package measure

import (
	"fmt"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{StepResistance, CapacityPair, CapacityTLS}
}

// StepResistance is "step-resistance".
var StepResistance = &figure.Figure{
	Name:    "step-resistance",
	Answers: "What resistance does a step of current show?",
	Inputs: []figure.Input{
		{Name: "before", Dim: q.Volts, Doc: "last voltage before the current changes"},
		{Name: "after", Dim: q.Volts, Doc: "voltage a fixed time later, such as 10 s"},
		{Name: "step", Dim: q.Amperes, Doc: "change of current, positive towards charging"},
		{Name: "reading-error", Dim: q.Volts, Doc: "standard error of one reading", Default: "0 V"},
	},
	Outputs: []figure.Output{
		{Key: "resistance_ohm", Dim: q.Ohms, Doc: "resistance after that time"},
		{Key: "error_ohm", Dim: q.Ohms, Doc: "its standard error from the readings"},
	},
	Equation: "resistance = (after − before) / step; error = √2 · reading-error / |step|",
	Source:   source.StepTests,
	Range:    "one step of current; the time after it must be stated, since resistance grows with it",
	Compute: func(a figure.Args) (figure.Results, error) {
		if a.Num("step") == 0 {
			return nil, fmt.Errorf("step is zero: %w", figure.ErrRange)
		}
		ohm, sigma := OhmOf(a.Num("before"), a.Num("after"), a.Num("reading-error"), a.Num("step"))
		return figure.Results{"resistance_ohm": ohm, "error_ohm": sigma}, nil
	},
	Checks: []figure.Check{
		{Source: source.StepTests, Note: "3.700 V at 10 A, 3.620 V at 50 A", In: []string{"before=3.700 V", "after=3.620 V", "step=-40 A"},
			Output: "resistance_ohm", Expected: 2.00e-3, Tolerance: 1e-9},
		{Source: source.PouchTest, Note: "10 s at 30 A from a rest at 58 % charge, 25 °C", In: []string{"before=3.949 V", "after=3.888 V", "step=-30 A"},
			Output: "resistance_ohm", Expected: 2.03e-3, Tolerance: 0.05e-3},
	},
}

// CapacityPair is "capacity-pair".
var CapacityPair = &figure.Figure{
	Name:    "capacity-pair",
	Answers: "What capacity does a part of a charge or discharge show?",
	Inputs: []figure.Input{
		{Name: "charge", Dim: q.AmpereHours, Doc: "charge moved"},
		{Name: "charge-error", Dim: q.AmpereHours, Doc: "its standard error", Default: "0 Ah"},
		{Name: "change", Dim: q.Fraction, Doc: "by how much the state of charge changed, from voltages at rest"},
		{Name: "change-error", Dim: q.Fraction, Doc: "its standard error", Default: "0"},
	},
	Outputs: []figure.Output{
		{Key: "capacity_ah", Dim: q.AmpereHours, Doc: "of the whole curve"},
		{Key: "error_ah", Dim: q.AmpereHours, Doc: "its standard error"},
	},
	Equation: "capacity = charge/change; error = capacity·√((charge-error/charge)² + (change-error/change)²)",
	Source:   source.Equation,
	Range:    "both above zero; the state of charge must not be read on the flat part of a curve",
	Compute: func(a figure.Args) (figure.Results, error) {
		if !(a.Num("charge") > 0 && a.Num("change") > 0) {
			return nil, fmt.Errorf("charge and change must be above zero: %w", figure.ErrRange)
		}
		ah, sigma := CapacityOf(a.Num("charge"), a.Num("charge-error"), a.Num("change"), a.Num("change-error"))
		return figure.Results{"capacity_ah": ah, "error_ah": sigma}, nil
	},
	Checks: []figure.Check{pairCheck("capacity_ah", 50.00, 0.005), pairCheck("error_ah", 1.19, 0.005)},
}

func pairCheck(out string, want, tolerance float64) figure.Check {
	return figure.Check{Source: source.Equation, Note: "30.0 ± 0.15 Ah for 0.60 ± 0.014",
		In:     []string{"charge=30.0 Ah", "charge-error=0.15 Ah", "change=0.60", "change-error=0.014"},
		Output: out, Expected: want, Tolerance: tolerance}
}

// CapacityTLS is "capacity-tls".
var CapacityTLS = &figure.Figure{
	Name:    "capacity-tls",
	Answers: "What capacity do several partial charges and discharges agree on?",
	Inputs: []figure.Input{
		{Name: "changes", Doc: "changes of state of charge, fractions, with commas between", Example: "0.40,0.55,0.32"},
		{Name: "charges", Doc: "charge moved in each, with commas between", Example: `"19.6 Ah,27.9 Ah,15.7 Ah"`},
		{Name: "change-error", Dim: q.Fraction, Doc: "standard error of one change of state of charge"},
		{Name: "charge-error", Dim: q.AmpereHours, Doc: "standard error of one charge"},
	},
	Outputs: []figure.Output{
		{Key: "capacity_ah", Dim: q.AmpereHours, Doc: "that fits all pairs best, both values erring"},
		{Key: "error_ah", Dim: q.AmpereHours, Doc: "its standard error"},
		{Key: "chi_squared", Dim: q.Plain, Doc: "squared distances over their errors; about the number of pairs less one when the errors are right"},
		{Key: "weighted_ah", Dim: q.AmpereHours, Doc: "with errors in the charge only, for comparison"},
	},
	Equation: "k = change-error/charge-error; c1 = Σx²/σy², c2 = Σxy/σy², c3 = Σy²/σy²; " +
		"capacity = (−(c1 − k²c3) + √((c1 − k²c3)² + 4k²c2²)) / (2k²c2); error² = 2/(d²χ²/dQ²)",
	Source:  source.Plett2011,
	Range:   "at least one pair; charges above zero; one pair of errors for all",
	Compute: totalLeastSquares,
	Checks: []figure.Check{tlsCheck("capacity_ah", 50.0261, 0.001), tlsCheck("error_ah", 0.931, 0.001),
		tlsCheck("chi_squared", 0.722, 0.001), tlsCheck("weighted_ah", 50.0137, 0.001)},
}

func totalLeastSquares(a figure.Args) (figure.Results, error) {
	changes, err := a.List("changes", q.Fraction)
	if err != nil {
		return nil, err
	}
	charges, err := a.List("charges", q.AmpereHours)
	if err != nil {
		return nil, err
	}
	if len(changes) != len(charges) {
		return nil, fmt.Errorf("%d changes but %d charges: %w", len(changes), len(charges), figure.ErrRange)
	}
	sx, sy := a.Num("change-error"), a.Num("charge-error")
	if !(sx > 0 && sy > 0) {
		return nil, fmt.Errorf("both errors must be above zero: %w", figure.ErrRange)
	}
	p := Pairs{K: sx / sy}
	for k := range changes {
		p.Add(changes[k], charges[k], sy)
	}
	ah, sigma, chi2, err := p.Capacity()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", err, figure.ErrRange)
	}
	weighted, _ := p.Weighted()
	return figure.Results{"capacity_ah": ah, "error_ah": sigma, "chi_squared": chi2, "weighted_ah": weighted}, nil
}

func tlsCheck(out string, want, tolerance float64) figure.Check {
	return figure.Check{Source: source.Equation, Note: "five pairs near 50 Ah", In: []string{
		"changes=0.40,0.55,0.32,0.61,0.48", "charges=19.6 Ah,27.9 Ah,15.7 Ah,30.9 Ah,23.6 Ah", "change-error=0.02", "charge-error=0.10 Ah"},
		Output: out, Expected: want, Tolerance: tolerance}
}
