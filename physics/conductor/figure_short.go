package conductor

import (
	"errors"
	"fmt"
	"strings"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// noCable is the size that stands for a short right at the terminals.
const noCable = "none"

// ShortCircuit answers what current a dead short draws from the bank.
var ShortCircuit = &figure.Figure{
	Name:    "short-circuit",
	Answers: "What current flows when the bank is shorted?",
	Inputs: []figure.Input{
		{Name: "voltage", Dim: quantity.Volts, Doc: "rest voltage of the full bank"},
		{Name: "bank-resistance", Dim: quantity.Ohms, Doc: "of the whole bank with its links: the lowest it can be, of new cells, warm"},
		{Name: "size", Doc: "size of the cable to the short, or none for a short at the terminals", Default: noCable, Example: `"50 mm2"`},
		{Name: "length", Dim: quantity.Metres, Doc: "length of the cable one way; the loop is twice that", Default: "0 m"},
	},
	Outputs: []figure.Output{
		{Key: "current_a", Dim: quantity.Amperes, Doc: "what the fuse must be able to interrupt"},
		{Key: "loop_ohm", Dim: quantity.Ohms, Doc: "resistance of the cable out and back at 20 °C"},
	},
	Equation: "I = voltage / (bank-resistance + 2 · length · r(size, 20 °C))",
	Source:   source.Equation,
	Range: "dc, first instant, without inductance and without the arc; cold cable, which gives the larger current; " +
		"parallel strings lower the bank's resistance; a switch or meter that limits the current must not be counted",
	Compute: computeShort,
	Checks:  shortChecks,
}

func computeShort(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "voltage", "bank-resistance"), notNegative(a, "length")); err != nil {
		return nil, err
	}
	loop, err := loopOhm(a.Text("size"), a.Num("length"))
	if err != nil {
		return nil, err
	}
	return figure.Results{"current_a": ShortCurrent(a.Num("voltage"), a.Num("bank-resistance"), loop), "loop_ohm": loop}, nil
}

// loopOhm is the resistance out and back at 20 °C, 0 without a cable.
func loopOhm(size string, lengthM float64) (float64, error) {
	none := strings.EqualFold(strings.TrimSpace(size), noCable)
	switch {
	case none && lengthM > 0:
		return 0, fmt.Errorf("a cable of %s needs its size, such as \"50 mm2\"", quantity.Metres.Text(lengthM, quantity.Metric))
	case none:
		return 0, nil
	}
	s, err := quantity.ParseSize(size)
	if err != nil {
		return 0, err
	}
	perM, err := Resistance(s, 20)
	return Drop(perM, lengthM, 1), err
}

var shortChecks = []figure.Check{
	number(source.ShortCircuitExample, "one iron-phosphate cell, printed 4667 A", "current_a", 4667, 1, "voltage=3.5 V", "bank-resistance=0.75 mΩ"),
	number(source.ShortCircuitExample, "four cells and links, 3.75 mΩ together", "current_a", 3733, 1, "voltage=14 V", "bank-resistance=3.75 mΩ"),
	number(source.Equation, "12 V behind 5 mΩ", "current_a", 2400, 1e-9, "voltage=12 V", "bank-resistance=5 mΩ"),
	number(source.Equation, "seven groups at 4.10 V, 0.5 mΩ each", "current_a", 8200, 8, "voltage=28.7 V", "bank-resistance=3.5 mΩ"),
	number(source.Equation, "the same behind 2 m loop of 50 mm² class 5", "current_a", 6718, 7,
		"voltage=28.7 V", "bank-resistance=3.5 mΩ", "size=50 mm2", "length=1 m"),
	number(source.Equation, "two such banks in parallel, the same cable", "current_a", 11380, 11,
		"voltage=28.7 V", "bank-resistance=1.75 mΩ", "size=50 mm2", "length=1 m"),
}
