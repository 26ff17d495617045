package convert

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// InputCurrent answers what a converter or inverter draws.
var InputCurrent = &figure.Figure{
	Name:    "input-current",
	Answers: "What current does a converter or inverter draw from the bank?",
	Inputs: []figure.Input{
		{Name: "power", Dim: quantity.Watts, Doc: "it gives"},
		{Name: "efficiency", Dim: quantity.Fraction, Doc: "output over input", Default: "90 %"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "lowest it works from: there the current is largest"},
	},
	Outputs:  []figure.Output{{Key: "current_a", Dim: quantity.Amperes, Doc: "in its input cable"}},
	Equation: "current = power / (efficiency · voltage)",
	Source:   source.Equation,
	Range:    "dc, without the ripple of an inverter",
	Compute:  computeInput,
	Checks: []figure.Check{
		check(source.Equation, "360 W at 88 % from 36 V", "current_a", 11.364, 0.001, "power=360 W", "efficiency=88 %", "voltage=36 V"),
	},
}

func computeInput(a figure.Args) (figure.Results, error) {
	if !(a.Num("power") >= 0 && a.Num("voltage") > 0 && a.Num("efficiency") > 0 && a.Num("efficiency") <= 1) {
		return nil, fmt.Errorf("power, voltage or efficiency: %w", figure.ErrRange)
	}
	return figure.Results{"current_a": a.Num("power") / (a.Num("efficiency") * a.Num("voltage"))}, nil
}
