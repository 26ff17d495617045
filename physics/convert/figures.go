package convert

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{InverterPower, InverterPartLoad, WeightedEfficiency, ConverterDraw, ControllerOutput, InputCurrent}
}

func check(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// positive refuses zero and less, and what is not a number.
func positive(a figure.Args, names ...string) error {
	for _, name := range names {
		if v := a.Num(name); !(v > 0 && v < 1e12) {
			return fmt.Errorf("%s must be more than zero: %w", name, figure.ErrRange)
		}
	}
	return nil
}

// notNegative refuses less than zero, and what is not a number.
func notNegative(a figure.Args, names ...string) error {
	for _, name := range names {
		if v := a.Num(name); !(v >= 0 && v < 1e12) {
			return fmt.Errorf("%s must not be less than zero: %w", name, figure.ErrRange)
		}
	}
	return nil
}

// efficient refuses an efficiency that is none.
func efficient(a figure.Args) error {
	if v := a.Num("efficiency"); !(v >= 0.05 && v <= 1) {
		return fmt.Errorf("efficiency must be from 5 %% to 100 %%: %w", figure.ErrRange)
	}
	return nil
}

var dcPower = figure.Input{Name: "dc-power", Dim: quantity.Watts, Doc: "that goes in"}
