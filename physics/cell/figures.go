package cell

import (
	"fmt"
	"math"
	"strconv"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{RestVoltage, SoCFromRest, SeriesSpan, ParallelLoss, WindowEnergy, ChargeLimit, ResistanceAt,
		ArrheniusFactor, CellHeat, WarmUp, CompensatedVoltage, AcidRest, CalendarStress, CellLimits, DischargeLimit, AcidCharging}
}

// ofCell is the input every figure with a cell shares.
var ofCell = figure.Input{Name: "cell", Doc: "cell of the library, by name", Example: "nmc532"}

// input makes a required numeric input.
func input(name string, d *quantity.Dimension, doc string) figure.Input {
	return figure.Input{Name: name, Dim: d, Doc: doc}
}

// with gives an input a default.
func with(i figure.Input, standard string) figure.Input {
	i.Default = standard
	return i
}

func output(key string, d *quantity.Dimension, doc string) figure.Output {
	return figure.Output{Key: key, Dim: d, Doc: doc}
}

// check builds a numeric check.
func check(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// within refuses a value outside its range.
func within(name string, v, low, high float64, unit string) error {
	if v >= low && v <= high {
		return nil
	}
	return fmt.Errorf("%s %s is not between %s and %s: %w", name, text(v, unit), text(low, unit), text(high, unit), figure.ErrRange)
}

func text(v float64, unit string) string {
	s := strconv.FormatFloat(v, 'g', 6, 64)
	if unit != "" {
		s += " " + unit
	}
	return s
}

// whole refuses anything but a whole number of at least one.
func whole(name string, v float64) error {
	if v >= 1 && v == math.Trunc(v) && v <= 1e6 {
		return nil
	}
	return fmt.Errorf("%s %s is not a whole number from 1: %w", name, text(v, ""), figure.ErrRange)
}

// cite writes a source with its standing.
func cite(s source.Source) string { return s.Text + " (" + string(s.Standing) + ")" }
