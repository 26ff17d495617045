package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// bar is a flat copper bar and what it carries at 30, 50 and 65 K above air of
// 40 °C.
type bar struct {
	name             string
	thick, wide      float64 // in
	at30, at50, at65 float64 // A
}

// bars is table 1 of the Copper Development Association for bars of C11000, by
// rising section. 1/4 x 1 is remembered only and left out.
var bars = []bar{
	{"1/8 x 1/2 in (3.2 x 12.7 mm)", 0.125, 0.5, 153, 205, 235},
	{"1/16 x 1 in (1.6 x 25 mm)", 0.0625, 1, 187, 250, 285},
	{"1/8 x 3/4 in (3.2 x 19 mm)", 0.125, 0.75, 215, 285, 325},
	{"1/8 x 1 in (3.2 x 25 mm)", 0.125, 1, 270, 360, 415},
	{"1/4 x 1/2 in (6.4 x 12.7 mm)", 0.25, 0.5, 240, 315, 360},
	{"1/8 x 1 1/2 in (3.2 x 38 mm)", 0.125, 1.5, 385, 510, 590},
	{"3/16 x 1 in (4.8 x 25 mm)", 0.1875, 1, 340, 455, 520},
	{"1/4 x 3/4 in (6.4 x 19 mm)", 0.25, 0.75, 320, 425, 490},
	{"1/8 x 2 in (3.2 x 51 mm)", 0.125, 2, 495, 660, 760},
}

func (b bar) mm2() float64 { return b.thick * b.wide * 25.4 * 25.4 }

func (b bar) carries(rise float64) float64 {
	switch {
	case rise >= 65:
		return b.at65
	case rise >= 50:
		return b.at50
	}
	return b.at30
}

// BusBar answers which copper bar carries a current.
var BusBar = &figure.Figure{
	Name:    "bus-bar",
	Answers: "Which copper bar carries this current?",
	Inputs: []figure.Input{current,
		{Name: "rise", Dim: quantity.Kelvins, Doc: "above the air: 30 K inside a closed box; the table has 30, 50 and 65 K", Default: "30 K"}},
	Outputs: []figure.Output{
		{Key: "bar", Doc: "the one of least section; of equal ones the one that carries most"},
		{Key: "area_mm2", Dim: quantity.SquareMillimetres, Doc: "its section"},
		{Key: "ampacity_a", Dim: quantity.Amperes, Doc: "what it carries"},
		{Key: "resistance_ohm_per_m", Dim: quantity.OhmsPerMetre, Doc: "of pure copper of that section at 20 °C"},
	},
	Equation: "the first bar of the table, by section, with ampacity >= current; r = 0.017241 Ω·mm²/m / area",
	Source:   source.CopperBars,
	Range:    "flat bars lying in still air of 40 °C; between the table's rises the lower one",
	Compute:  computeBar,
	Checks: []figure.Check{
		number(source.CopperBars, "300 A at 30 K: the least section is 121 mm²", "area_mm2", 121, 0.5, "current=300 A"),
		exact(source.CopperBars, "thin and wide cools better", "bar", "1/8 x 1 1/2 in (3.2 x 38 mm)", "current=300 A"),
		number(source.CopperIACS, "1/8 x 1: 65.2 µΩ/ft, printed 65.8 for 99 % copper", "resistance_ohm_per_m", 65.2e-6/0.3048, 0.98e-6/0.3048, "current=260 A"),
	},
}

func computeBar(a figure.Args) (figure.Results, error) {
	if err := notNegative(a, "current"); err != nil {
		return nil, err
	}
	if a.Num("rise") < 30 {
		return nil, fmt.Errorf("rise %g K: the table begins at 30 K: %w", a.Num("rise"), figure.ErrRange)
	}
	var best *bar
	for k := range bars {
		b := &bars[k]
		if b.carries(a.Num("rise")) < a.Num("current") {
			continue
		}
		if best == nil || b.mm2() == best.mm2() && b.carries(a.Num("rise")) > best.carries(a.Num("rise")) {
			best = b
		}
	}
	if best == nil {
		return nil, fmt.Errorf("%g A is more than any bar listed carries: lay two side by side: %w", a.Num("current"), figure.ErrRange)
	}
	return figure.Results{"bar": best.name, "area_mm2": best.mm2(), "ampacity_a": best.carries(a.Num("rise")), "resistance_ohm_per_m": Resistivity / best.mm2()}, nil
}
