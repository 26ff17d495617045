package conductor

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

var (
	shortCurrent = figure.Input{Name: "current", Dim: quantity.Amperes, Doc: "in the short"}
	material     = figure.Input{Name: "insulation", Doc: "pvc-70, pvc-90 (115 and 100), rubber-85 (134), silicone-180 (132) or xlpe-90 (143)", Default: CautiousMaterial, Example: "xlpe-90"}
)

const longestShort = 5 // s; beyond that heat leaves the conductor and the equation is too strict

// ThermalWithstand answers which conductor bears a short until its fuse clears.
var ThermalWithstand = &figure.Figure{
	Name:     "thermal-withstand",
	Answers:  "How much copper bears a short until the fuse has cleared it?",
	Inputs:   []figure.Input{shortCurrent, {Name: "time", Dim: quantity.Seconds, Doc: "until the fuse has cleared"}, material},
	Outputs:  []figure.Output{{Key: "area_mm2", Dim: quantity.SquareMillimetres, Doc: "least copper"}},
	Equation: "area = current · √time / k, k of the insulation",
	Source:   source.IEC60364554,
	Range:    "copper at its rated temperature before the short; to 5 s",
	Compute:  computeWithstand,
	Checks: []figure.Check{
		number(source.IEC60364554, "printed: 10 kA for 0.4 s, 55 mm², so 70 mm²", "area_mm2", 55.0, 0.1, "current=10 kA", "time=0.4 s", "insulation=pvc-70"),
		number(source.IEC60364554, "printed: 12 kA for 0.02 s, 11.9 mm², so 16 mm²", "area_mm2", 11.87, 0.1, "current=12 kA", "time=0.02 s", "insulation=xlpe-90"),
	},
}

func computeWithstand(a figure.Args) (figure.Results, error) {
	if err := positive(a, "current", "time"); err != nil {
		return nil, err
	}
	if a.Num("time") > longestShort {
		return nil, fmt.Errorf("time %g s is more than %d s: %w", a.Num("time"), longestShort, figure.ErrRange)
	}
	area, err := WithstandArea(a.Num("current"), a.Num("time"), a.Text("insulation"))
	return figure.Results{"area_mm2": area}, err
}

// ShortTime answers how long a conductor bears a short.
var ShortTime = &figure.Figure{
	Name:     "withstand-time",
	Answers:  "How long does this copper bear a short?",
	Inputs:   []figure.Input{shortCurrent, {Name: "area", Dim: quantity.SquareMillimetres, Doc: "of the copper"}, material},
	Outputs:  []figure.Output{{Key: "time_s", Dim: quantity.Seconds, Doc: "until its insulation is harmed"}},
	Equation: "time = (k · area / current)², k of the insulation",
	Source:   source.IEC60364554,
	Range:    "copper at its rated temperature before the short; above 5 s it bears more than this says",
	Compute:  computeShortTime,
	Checks: []figure.Check{
		number(source.Equation, "50 mm² at 8.2 kA", "time_s", 0.760, 0.0076, "current=8.2 kA", "area=50 mm2", "insulation=xlpe-90"),
	},
}

func computeShortTime(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "current", "area")); err != nil {
		return nil, err
	}
	t, err := WithstandTime(a.Num("area"), a.Num("current"), a.Text("insulation"))
	return figure.Results{"time_s": t}, err
}
