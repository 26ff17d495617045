package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{Conductor, VoltageDrop, ConductorForDrop, ShortCircuit,
		Ambient, Heat, DropISO, ThermalWithstand, ShortTime, BusBar}
}

// Inputs that several figures share.
var (
	ofSize    = figure.Input{Name: "size", Doc: "conductor size as bought", Example: `"2/0 AWG"`}
	oneWay    = figure.Input{Name: "length", Dim: quantity.Metres, Doc: "length one way; the loop out and back is twice that"}
	current   = figure.Input{Name: "current", Dim: quantity.Amperes, Doc: "current in the conductor"}
	supply    = figure.Input{Name: "voltage", Dim: quantity.Volts, Doc: "voltage at the source"}
	copperAt  = figure.Input{Name: "temperature", Dim: quantity.Celsius, Doc: "of the copper; at 75 °C it has 22 % more resistance than at 20 °C, at 105 °C a third more", Default: "20 °C"}
	permitted = figure.Input{Name: "drop-percent", Dim: quantity.Percent, Doc: "permitted drop, percent of the voltage; a bare 3 is 3 %", Default: "3 %"}
)

// number makes a check of a numeric output.
func number(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// exact makes a check of a text output.
func exact(s source.Source, note, out, want string, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want}
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

// notNegative refuses less than zero, and what is not a number.
func notNegative(a figure.Args, names ...string) error {
	for _, n := range names {
		if !(a.Num(n) >= 0) {
			return fmt.Errorf("%s must not be less than zero: %w", n, figure.ErrRange)
		}
	}
	return nil
}
