package panel

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// IncidenceLoss answers what slanting light loses at the glass.
var IncidenceLoss = &figure.Figure{
	Name:    "incidence-loss",
	Answers: "How much of slanting light passes the panel's glass?",
	Inputs: []figure.Input{
		{Name: "incidence", Dim: quantity.Degrees, Doc: "angle between the light and the panel's face"},
		tilted,
		{Name: "model", Doc: "physical (Snell and absorption), ashrae (b 0.05) or martin-ruiz (ar 0.16)", Default: "physical", Example: "ashrae"},
	},
	Outputs: []figure.Output{
		{Key: "modifier", Dim: quantity.Plain, Doc: "what passes, against light that comes straight"},
		{Key: "loss_fraction", Dim: quantity.Fraction, Doc: "lost of it"},
		{Key: "sky_modifier", Dim: quantity.Plain, Doc: "what passes of an even sky at this tilt"},
		{Key: "ground_modifier", Dim: quantity.Plain, Doc: "what passes of the light from the ground at this tilt; 0 flat"},
	},
	Equation: "physical: sin r = sin θ/n; τ = exp(-K·L/cos r)·(1 - (ρ⊥ + ρ∥)/2), over its value straight on; n 1.526, K 4/m, L 2 mm; " +
		"ASHRAE: 1 - 0.05·(1/cos θ - 1); Martin & Ruiz: (1 - exp(-cos θ/0.16))/(1 - exp(-1/0.16)); sky and ground: mean over what the panel sees",
	Source: source.GlassModels,
	Range:  "clean uncoated glass; coated glass loses less, dirt more",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := inside(a, limit{"incidence", 0, 180}, tiltLimit); err != nil {
			return nil, err
		}
		share, err := glassModel(a.Text("model"))
		if err != nil {
			return nil, err
		}
		passes := share(math.Cos(a.Num("incidence") * degree))
		sky, ground := diffuseShares(a.Num("tilt")*degree, share)
		return figure.Results{"modifier": passes, "loss_fraction": 1 - passes, "sky_modifier": sky, "ground_modifier": ground}, nil
	},
	Checks: []figure.Check{
		check(source.SunTables, "70°, physical", "modifier", 0.85972019, 1e-7, "incidence=70 °"),
		check(source.SunTables, "70°, ASHRAE", "modifier", 0.90380978, 1e-7, "incidence=70 °", "model=ashrae"),
		check(source.SunTables, "70°, Martin & Ruiz", "modifier", 0.88377158, 1e-7, "incidence=70 °", "model=martin-ruiz"),
		check(source.SunTables, "sky on a flat panel, physical", "sky_modifier", 0.94439424, 3e-4, "incidence=0 °"),
		check(source.SunTables, "sky on a flat panel, Martin & Ruiz", "sky_modifier", 0.95145986, 1e-2, "incidence=0 °", "model=martin-ruiz"),
		check(source.SunTables, "ground before an upright panel", "ground_modifier", 0.94440479, 3e-4, "incidence=0 °", "tilt=90 °"),
	},
}

func glassModel(name string) (func(cos float64) float64, error) {
	switch name {
	case "physical":
		return CommonGlass.Physical, nil
	case "ashrae":
		return func(cos float64) float64 { return ASHRAE(cos, 0.05) }, nil
	case "martin-ruiz":
		return func(cos float64) float64 { return MartinRuiz(cos, 0.16) }, nil
	}
	return nil, fmt.Errorf("model %q: expected physical, ashrae or martin-ruiz", name)
}
