package balance

import (
	"fmt"
	"slices"

	"ampstead/figure"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/source"
)

// BleedAh returns the charge (Ah) each group of a capacity (Ah) must give up to
// stand at the state of charge of the lowest, from rest voltages (V):
//
//	ΔAh = C·[SoC(V) − min SoC]
func BleedAh(curve cell.Curve, ah float64, volts []float64) []float64 {
	low := curve.SoC(slices.Min(volts))
	bleed := make([]float64, len(volts))
	for k, v := range volts {
		bleed[k] = ah * (curve.SoC(v) - low)
	}
	return bleed
}

// Bleed is "balance-bleed".
var Bleed = &figure.Figure{
	Name:    "balance-bleed",
	Answers: "How much charge must each group give up to stand level with the lowest?",
	Inputs: []figure.Input{
		{Name: "cell", Doc: "cell of the library, by name", Example: "nmc532"},
		{Name: "capacity", Dim: q.AmpereHours, Doc: "of one group"},
		{Name: "voltages", Dim: q.Volts, List: true, Doc: "rest voltage of each group, comma-separated", Example: "4.05,4.00"},
	},
	Outputs:  []figure.Output{{Key: "ah_per_group", Dim: q.AmpereHours, Doc: "to take from each group, in the order given"}},
	Equation: "charge_i = capacity·[U⁻¹(voltage_i) − min U⁻¹(voltage)]",
	Source:   source.RestDifference,
	Range:    "fully rested, one temperature, groups of one capacity; refused on the flat part of a curve",
	Compute:  computeBleed,
	Checks: []figure.Check{
		{Source: source.Mohtat2020, Note: "100 Ah, 50 mV apart near full", In: []string{"cell=nmc532", "capacity=100 Ah", "voltages=4.05,4.00"},
			Output: "ah_per_group", Expected: []float64{4.69, 0}, Tolerance: 0.1},
		{Source: source.Mohtat2020, Note: "100 Ah, 50 mV apart at the middle", In: []string{"cell=nmc532", "capacity=100 Ah", "voltages=3.70,3.75"},
			Output: "ah_per_group", Expected: []float64{0, 8.84}, Tolerance: 0.1},
	},
}

func computeBleed(a figure.Args) (figure.Results, error) {
	c, err := cell.Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	volts, err := a.List("voltages", q.Volts)
	if err != nil {
		return nil, err
	}
	if !(a.Num("capacity") > 0) {
		return nil, fmt.Errorf("capacity must be above 0: %w", figure.ErrRange)
	}
	if err := readable(c, 0, volts...); err != nil {
		return nil, err
	}
	return figure.Results{"ah_per_group": BleedAh(c.Curve, a.Num("capacity"), volts)}, nil
}

// Figures lists the figures of this package.
func Figures() []*figure.Figure { return []*figure.Figure{LeakFromRest, Bleed} }
