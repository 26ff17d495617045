package protect

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{FuseSize, FuseInterrupt, PreChargeFigure, PreChargeTimeFigure, ClosingCurrent, PadDensity}
}

func number(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// positive refuses zero and less, and what is not a number.
func positive(a figure.Args, names ...string) error {
	for _, n := range names {
		if !(a.Num(n) > 0) {
			return fmt.Errorf("%s must be more than zero: %w", n, figure.ErrRange)
		}
	}
	return nil
}

// FuseSize answers which standard fuse a current asks for.
var FuseSize = &figure.Figure{
	Name:    "fuse-size",
	Answers: "Which standard fuse does this current ask for?",
	Inputs: []figure.Input{
		{Name: "continuous", Dim: quantity.Amperes, Doc: "current that flows for three hours or more"},
		{Name: "other", Dim: quantity.Amperes, Doc: "current for shorter times on top", Default: "0 A"},
	},
	Outputs: []figure.Output{
		{Key: "least_a", Dim: quantity.Amperes, Doc: "least rating of fuse and conductor"},
		{Key: "size_a", Dim: quantity.Amperes, Doc: "next standard rating"},
	},
	Equation: "least = 1.25 · continuous + other; size = the next standard rating of NFPA 70, 240.6(A)",
	Source:   source.NECContinuous,
	Range:    "1 to 1200 A; the conductor must carry the fuse's rating as well, else it must be thicker",
	Compute:  computeSize,
	Checks: []figure.Check{
		number(source.NECContinuous, "printed: 32 A for long on a fuse of 40 A", "size_a", 40, 0, "continuous=32 A"),
		number(source.NEC2406, "next standard size at or above 133 A", "size_a", 150, 0, "continuous=0 A", "other=133 A"),
		number(source.NEC6908, "a string of 9.0 A: 14.06 A, so 15 A", "size_a", 15, 0, "continuous=11.25 A"),
	},
}

func computeSize(a figure.Args) (figure.Results, error) {
	least := Continuous*a.Num("continuous") + a.Num("other")
	if !(a.Num("continuous") >= 0 && a.Num("other") >= 0) {
		return nil, fmt.Errorf("a current must not be less than zero: %w", figure.ErrRange)
	}
	size, err := NextSize(least)
	return figure.Results{"least_a": least, "size_a": size}, err
}

// FuseInterrupt answers what a class of fuse can interrupt.
var FuseInterrupt = &figure.Figure{
	Name:    "fuse-interrupt",
	Answers: "What dc current can this class of fuse interrupt at this voltage?",
	Inputs: []figure.Input{
		{Name: "class", Doc: "blade, midi, mega, strip, terminal or class T", Example: `"class T"`},
		{Name: "voltage", Dim: quantity.Volts, Doc: "highest the bank is charged to"},
	},
	Outputs:  []figure.Output{{Key: "interrupt_a", Dim: quantity.Amperes, Doc: "0 above the class's voltage; the fuse's own label governs"}},
	Equation: "table by class and voltage, the next higher voltage of the table",
	Source:   source.FuseSheets,
	Range:    "it always falls as the voltage rises; of two figures the lower; ratings on ac say nothing about dc",
	Compute:  computeInterrupt,
	Checks: []figure.Check{
		number(source.FuseSheets, "class T, 20 kA", "interrupt_a", 20000, 0, "class=class T", "voltage=50.4 V"),
		number(source.FuseSheets, "terminal fuse at 12 V: 10 kA", "interrupt_a", 10000, 0, "class=terminal", "voltage=14 V"),
		number(source.FuseSheets, "and above 32 V", "interrupt_a", 2000, 0, "class=terminal", "voltage=50.4 V"),
		number(source.FuseSheets, "a strip fuse of 32 V at eight groups, 33.6 V", "interrupt_a", 0, 0, "class=strip", "voltage=33.6 V"),
		number(source.FuseSheets, "and at seven groups, 29.4 V", "interrupt_a", 2700, 0, "class=strip", "voltage=29.4 V"),
	},
}

func computeInterrupt(a figure.Args) (figure.Results, error) {
	c, ok := ClassNamed(a.Text("class"))
	if !ok {
		return nil, fmt.Errorf("class %q: expected blade, midi, mega, strip, terminal or class T: %w", a.Text("class"), figure.ErrRange)
	}
	if err := positive(a, "voltage"); err != nil {
		return nil, err
	}
	return figure.Results{"interrupt_a": c.At(a.Num("voltage"))}, nil
}

// PadDensity answers how hard a heater pad heats its area.
var PadDensity = &figure.Figure{
	Name:    "pad-density",
	Answers: "How much heat does a pad give on its area?",
	Inputs: []figure.Input{
		{Name: "power", Dim: quantity.Watts, Doc: "of the pad"},
		{Name: "area", Dim: quantity.SquareMetres, Doc: "it heats"},
	},
	Outputs: []figure.Output{
		{Key: "w_per_cm2", Dim: quantity.Plain, Doc: "W/cm²"},
		{Key: "w_per_in2", Dim: quantity.Plain, Doc: "W/in²"},
	},
	Equation: "power / area",
	Source:   source.PadSheet,
	Range:    "metal plates take 0.39 to 1.16 W/cm²; a cell in a plastic case 0.05 to 0.2 W/cm²",
	Compute:  computeDensity,
	Checks: []figure.Check{
		number(source.PadSheet, "printed: 135 W on 50 in²", "w_per_in2", 2.7, 1e-9, "power=135 W", "area=50 in2"),
	},
}

func computeDensity(a figure.Args) (figure.Results, error) {
	if err := positive(a, "power", "area"); err != nil {
		return nil, err
	}
	const in2 = 0.0254 * 0.0254
	perM2 := a.Num("power") / a.Num("area")
	return figure.Results{"w_per_cm2": perM2 * 1e-4, "w_per_in2": perM2 * in2}, nil
}
