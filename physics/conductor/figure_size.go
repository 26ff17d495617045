package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// ConductorForDrop answers which conductor keeps the drop small enough. It does
// not look at the ampacity.
var ConductorForDrop = &figure.Figure{
	Name:    "conductor-for-drop",
	Answers: "Which conductor keeps the voltage drop within what is permitted?",
	Inputs:  []figure.Input{oneWay, current, supply, permitted},
	Outputs: []figure.Output{
		{Key: "area_cmil", Dim: quantity.CircularMils, Doc: "least area"},
		{Key: "size", Doc: "next larger AWG size"},
		{Key: "size_sae", Doc: "next larger SAE size"},
		{Key: "size_mm2", Doc: "next larger metric size, counted with the copper its resistance proves"},
	},
	Equation: "CM = 10.75 · current · 2 · length / E, length in ft, E = voltage · drop-percent / 100; the next larger listed size",
	Source:   source.ABYCDrop,
	Range: "copper at 29 °C (10.75 Ω·cmil/ft), at 75 °C it drops about 17 % more; drop-percent 0.1 to 50 %; " +
		"common limits are 3 % for feeders, electronics and navigation lights, 10 % for what is not critical; " +
		"sizes from 18 to 4/0 AWG; a single conductor should not be thinner than 16 AWG (33 CFR 183.425); the ampacity must be checked as well",
	Compute: computeForDrop,
	Checks:  forDropChecks,
}

func computeForDrop(a figure.Args) (figure.Results, error) {
	if err := positive(a, "length", "current", "voltage"); err != nil {
		return nil, err
	}
	percent := a.Num("drop-percent")
	if !(percent >= 0.1 && percent <= 50) {
		return nil, fmt.Errorf("drop-percent %g is not between 0.1 and 50; write 3 or 3 %% for three percent: %w", percent, figure.ErrRange)
	}
	cmil := AreaForDrop(a.Num("length"), a.Num("current"), a.Num("voltage")*percent/100)
	awg, err := Next(quantity.AWG, cmil)
	if err != nil {
		return nil, err
	}
	return figure.Results{"area_cmil": cmil, "size": awg.String(),
		"size_sae": nextOrNone(quantity.SAE, cmil), "size_mm2": nextOrNone(quantity.MM2, cmil)}, nil
}

// nextOrNone is for the systems whose largest size is a little below 4/0 AWG.
func nextOrNone(g quantity.Gauge, cmil float64) string {
	s, err := Next(g, cmil)
	if err != nil {
		return "none large enough"
	}
	return s.String()
}

var (
	pump          = []string{"length=10.5 ft", "current=10 A", "voltage=12 V", "drop-percent=3 %"}
	pumpAtTen     = []string{"length=10.5 ft", "current=10 A", "voltage=12 V", "drop-percent=10 %"}
	forDropChecks = []figure.Check{
		number(source.ABYCDrop, "pump, 10 A, 11 ft + 10 ft, 12 V, 3 %", "area_cmil", 6270.8, 0.05, pump...),
		exact(source.ABYCDrop, "the same: printed answer", "size", "12 AWG", pump...),
		exact(source.ABYCDrop, "the same: printed answer for SAE", "size_sae", "10 SAE", pump...),
		number(source.ABYCDrop, "the same at 10 %", "area_cmil", 1881, 0.5, pumpAtTen...),
		exact(source.ABYCDrop, "the same at 10 %: printed answer", "size", "16 AWG", pumpAtTen...),
		exact(source.Equation, "6270.8 cmil is 3.177 mm²; 4 mm² class 5 has 3.483 mm² of copper", "size_mm2", "4 mm²", pump...),
	}
)
