package conductor

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

var (
	insulationRating = figure.Input{Name: "insulation", Dim: quantity.Celsius, Doc: "temperature rating of the insulation", Default: "105 °C"}
	aroundIt         = figure.Input{Name: "ambient", Dim: quantity.Celsius, Doc: "air around it", Default: "30 °C"}
)

// Ambient answers how the air's temperature changes what a conductor carries.
var Ambient = &figure.Figure{
	Name:    "ambient-factor",
	Answers: "How much less does a conductor carry in hotter air?",
	Inputs:  []figure.Input{insulationRating, aroundIt},
	Outputs: []figure.Output{
		{Key: "factor", Dim: quantity.Plain, Doc: "of the ampacity in air of 30 °C"},
		{Key: "law_factor", Dim: quantity.Plain, Doc: "the same by the law behind the table"},
	},
	Equation: "factor = table 310.15(B)(1) for 60, 75 and 90 °C, the lower column between them; above 90 °C the law √((insulation - ambient)/(insulation - 30 °C))",
	Source:   source.NECAmbient,
	Range:    "air from -60 °C to 5 K below the insulation's rating",
	Compute:  computeAmbient,
	Checks: []figure.Check{
		number(source.NECAmbient, "table, 90 °C, 50 °C", "factor", 0.82, 0, "insulation=90 °C", "ambient=50 °C"),
		number(source.NECAmbient, "law, 90 °C, 30 to 50 °C: table 0.82", "law_factor", 0.816, 0.01, "insulation=90 °C", "ambient=50 °C"),
		number(source.NECAmbient, "table, 75 °C, 38 °C", "factor", 0.88, 0, "insulation=75 °C", "ambient=38 °C"),
	},
}

func computeAmbient(a figure.Args) (figure.Results, error) {
	factor, err := AmbientFactor(a.Num("insulation"), a.Num("ambient"))
	if err != nil {
		return nil, err
	}
	return figure.Results{"factor": factor, "law_factor": AmbientLaw(a.Num("insulation"), a.Num("ambient"))}, nil
}

// Heat answers how warm a conductor gets.
var Heat = &figure.Figure{
	Name:     "conductor-temperature",
	Answers:  "How warm does a conductor get at this current?",
	Inputs:   []figure.Input{current, {Name: "ampacity", Dim: quantity.Amperes, Doc: "with every correction but that of lugs"}, insulationRating, aroundIt},
	Outputs:  []figure.Output{{Key: "temperature_c", Dim: quantity.Celsius, Doc: "of the copper after a long time"}},
	Equation: "temperature = ambient + (insulation - ambient) · (current / ampacity)²",
	Source:   source.CopperHeat,
	Range:    "up to the ampacity; the change of resistance with warmth is left out, which overstates the rise",
	Compute:  computeHeat,
	Checks: []figure.Check{
		number(source.Equation, "half the ampacity: a quarter of the rise", "temperature_c", 48.75, 1e-9, "current=50 A", "ampacity=100 A"),
		number(source.Equation, "the ampacity itself", "temperature_c", 105, 1e-9, "current=100 A", "ampacity=100 A", "ambient=40 °C"),
	},
}

func computeHeat(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "ampacity"), notNegative(a, "current")); err != nil {
		return nil, err
	}
	if a.Num("ambient") >= a.Num("insulation") {
		return nil, fmt.Errorf("ambient must be below insulation: %w", figure.ErrRange)
	}
	return figure.Results{"temperature_c": Temperature(a.Num("current"), a.Num("ampacity"), a.Num("insulation"), a.Num("ambient"))}, nil
}

// DropISO answers what the metric marine standard's formula gives.
var DropISO = &figure.Figure{
	Name:     "voltage-drop-iso",
	Answers:  "What voltage drop does the formula of ISO 10133 print?",
	Inputs:   []figure.Input{current, oneWay, {Name: "area", Dim: quantity.SquareMillimetres, Doc: "nominal cross-section"}},
	Outputs:  []figure.Output{{Key: "drop_v", Dim: quantity.Volts, Doc: "by that formula: at least 5 % too low"}},
	Equation: "drop = 0.0164 · current · 2 · length / area",
	Source:   source.ISO10133Drop,
	Range:    "only to compare with tables made with it: 0.0164 Ω·mm²/m is less than copper has at 20 °C; size by the figure voltage-drop",
	Compute:  computeISO,
	Checks: []figure.Check{
		number(source.ISO10133Drop, "1.6 A, 22 m out and back, 1.5 mm²: printed 0.38 V", "drop_v", 0.385, 0.0077, "current=1.6 A", "length=11 m", "area=1.5 mm2"),
	},
}

func computeISO(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "area"), notNegative(a, "current", "length")); err != nil {
		return nil, err
	}
	return figure.Results{"drop_v": 0.0164 * a.Num("current") * 2 * a.Num("length") / a.Num("area")}, nil
}
