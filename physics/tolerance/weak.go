package tolerance

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/quantity"
	"ampstead/source"
)

// MeanAtWeakest returns the rest voltage (V) of an average group when the
// weakest one, of the fraction share of the average capacity, has come down to
// weakestV. All groups are level when full, as after balancing at the top:
//
//	SoC_mean = 1 − (1 − SoC_weakest) · share
func MeanAtWeakest(curve cell.Curve, share, weakestV float64) float64 {
	drawn := (1 - curve.SoC(weakestV)) * share
	return curve.Voltage(1 - drawn)
}

// WeakestAtMean is the inverse: the rest voltage of the weakest group when an
// average one stands at meanV. It stays at the curve's end when the weakest
// group is already empty.
func WeakestAtMean(curve cell.Curve, share, meanV float64) float64 {
	drawn := (1 - curve.SoC(meanV)) / share
	return curve.Voltage(1 - drawn)
}

// WeakGroup is "weak-group".
var WeakGroup = &figure.Figure{
	Name:    "weak-group",
	Answers: "Where is the weakest group when an average one stands at this voltage?",
	Inputs: []figure.Input{
		{Name: "cell", Doc: "cell of the library", Example: "nmc532"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "rest voltage of an average group"},
		{Name: "share", Dim: quantity.Fraction, Doc: "weakest group's capacity over the average"},
	},
	Outputs: []figure.Output{
		{Key: "weakest_v", Dim: quantity.Volts, Doc: "rest voltage of the weakest group"},
		{Key: "spread_v", Dim: quantity.Volts, Doc: "how far it stands below the average"},
	},
	Equation: "SoC_weakest = 1 − (1 − SoC_average) / share; voltages from the cell's rest curve",
	Source:   source.LayerStaging,
	Range:    "groups level when full (balanced at the top); rest voltages",
	Compute:  computeWeak,
	Checks: []figure.Check{{Source: source.Equation, Note: "an even group stands where the average does",
		In: []string{"cell=nmc532", "voltage=3.6 V", "share=100 %"}, Output: "spread_v", Expected: 0.0, Tolerance: 1e-9}},
}

func computeWeak(a figure.Args) (figure.Results, error) {
	c, err := cell.Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	share, mean := a.Num("share"), a.Num("voltage")
	if !(share > 0 && share <= 1) {
		return nil, fmt.Errorf("share must be above 0 and at most 100 %%: %w", figure.ErrRange)
	}
	weakest := WeakestAtMean(c.Curve, share, mean)
	return figure.Results{"weakest_v": weakest, "spread_v": max(0, mean-weakest)}, nil
}
