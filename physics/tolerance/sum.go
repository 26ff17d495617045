package tolerance

import (
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// WorstOf adds magnitudes: sum |t|.
func WorstOf(terms ...float64) float64 {
	sum := 0.0
	for _, t := range terms {
		sum += math.Abs(t)
	}
	return sum
}

// RSSOf adds by root-sum-square: √Σt², for independent errors centred on zero.
func RSSOf(terms ...float64) float64 {
	sum := 0.0
	for _, t := range terms {
		sum += t * t
	}
	return math.Sqrt(sum)
}

// WorstCase is "worst-case".
var WorstCase = &figure.Figure{
	Name:     "worst-case",
	Answers:  "How far off are several errors together when all are against me?",
	Inputs:   []figure.Input{termsInput},
	Outputs:  []figure.Output{{Key: "worst", Dim: quantity.Plain, Doc: "sum of the magnitudes, in the unit of the terms"}},
	Equation: "worst = |t1| + |t2| + ...",
	Source:   source.ToleranceStacking,
	Range:    "any terms of one unit",
	Compute: func(a figure.Args) (figure.Results, error) {
		terms, err := a.List("terms", quantity.Plain)
		return figure.Results{"worst": WorstOf(terms...)}, err
	},
	Checks: []figure.Check{
		stacked("1 %, 1 %, 1.5 %", "terms=1,1,1.5", "worst", 3.5, 0.01),
		stacked("0.20, 0.10, 0.15", "terms=0.20,0.10,0.15", "worst", 0.45, 0.001),
		stacked("ten at 0.1", tenTenths, "worst", 1.0, 0.001),
		{Source: source.Equation, Note: "relay 0.5 % and charger 0.3 % of 29.4 V, seven meters of 10 mV",
			In: []string{"terms=0.147,0.0882,0.07"}, Output: "worst", Expected: 0.305, Tolerance: 0.001},
	},
}

// RootSumSquare is "root-sum-square".
var RootSumSquare = &figure.Figure{
	Name:     "root-sum-square",
	Answers:  "How far off are several independent errors together likely to be?",
	Inputs:   []figure.Input{termsInput},
	Outputs:  []figure.Output{{Key: "likely", Dim: quantity.Plain, Doc: "root of the sum of squares, in the unit of the terms"}},
	Equation: "likely = √(t1² + t2² + ...)",
	Source:   source.ToleranceStacking,
	Range:    "independent errors centred on zero; for display, never for a protective layer",
	Compute: func(a figure.Args) (figure.Results, error) {
		terms, err := a.List("terms", quantity.Plain)
		return figure.Results{"likely": RSSOf(terms...)}, err
	},
	Checks: []figure.Check{
		stacked("1 %, 1 %, 1.5 %", "terms=1,1,1.5", "likely", 2.06, 0.01),
		stacked("0.20, 0.10, 0.15", "terms=0.20,0.10,0.15", "likely", 0.269, 0.001),
		stacked("ten at 0.1", tenTenths, "likely", 0.316, 0.001),
		{Source: source.Equation, Note: "relay 0.5 % and charger 0.3 % of 29.4 V, seven meters of 10 mV",
			In: []string{"terms=0.147,0.0882,0.07"}, Output: "likely", Expected: 0.185, Tolerance: 0.001},
	},
}

const tenTenths = "terms=0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1,0.1"

var termsInput = figure.Input{Name: "terms", Doc: "the errors, comma-separated bare numbers of one unit", Example: "0.20,0.10,0.15"}

func stacked(note, in, key string, want, tol float64) figure.Check {
	return figure.Check{Source: source.ToleranceStacking, Note: note, In: []string{in}, Output: key, Expected: want, Tolerance: tol}
}

// Figures lists the figures of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{WorstCase, RootSumSquare, LayerBand, LayerSetting, DelayDrift, Hysteresis, WeakGroup}
}
