package balance

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/source"
)

const hoursADay = 24

// LeakA returns the current (A, positive drains) that took a group of a capacity
// (Ah) from one rest voltage (V) to another in some hours:
//
//	I = C·[SoC(before) − SoC(after)] / t
func LeakA(curve cell.Curve, before, after, hours, ah float64) float64 {
	return ah * (curve.SoC(before) - curve.SoC(after)) / hours
}

// LeakErrorA is the standard error (A) of LeakA when each voltage has the error
// meter (V): C/t·σ·√(1/U'(before)² + 1/U'(after)²), which for one slope is
// C/t·√2·σ/U'.
func LeakErrorA(curve cell.Curve, before, after, hours, ah, meter float64) float64 {
	return ah / hours * meter * math.Hypot(1/curve.Slope(curve.SoC(before)), 1/curve.Slope(curve.SoC(after)))
}

// LeakFromRest is "leak-from-rest".
var LeakFromRest = &figure.Figure{
	Name:    "leak-from-rest",
	Answers: "What current leaks inside a group that fell from one rest voltage to another?",
	Inputs: []figure.Input{
		{Name: "cell", Doc: "cell of the library, by name", Example: "nmc532"},
		{Name: "voltage-before", Dim: q.Volts, Doc: "rest voltage of one cell at the start"},
		{Name: "voltage-after", Dim: q.Volts, Doc: "rest voltage at the end"},
		{Name: "days", Dim: q.Plain, Doc: "between the two", Example: "30"},
		{Name: "capacity", Dim: q.AmpereHours, Doc: "of the group, all its cells in parallel"},
		{Name: "meter-error", Dim: q.Volts, Doc: "standard error of one reading", Default: "1 mV"},
	},
	Outputs: []figure.Output{
		{Key: "leak_ma", Dim: q.Plain, Doc: "leak, mA, positive drains"},
		{Key: "leak_error_ma", Dim: q.Plain, Doc: "its standard error from the meter, mA"},
	},
	Equation: "leak = capacity·[U⁻¹(voltage-before) − U⁻¹(voltage-after)] / (24 h·days); " +
		"error = capacity/(24 h·days)·meter-error·√(1/U'(before)² + 1/U'(after)²)",
	Source: source.RestDifference,
	Range: "both readings fully rested (24 h after the last current, 1 h at least) and at one temperature; take the difference to the median " +
		"group, so that shared self-discharge and the meter's gain drop out; refused on the flat part of a curve",
	Compute: computeLeak,
	Checks: []figure.Check{
		{Source: source.Chen2020, Note: "50 Ah from 3.7509 to 3.7409 V in 30 days: 1.059 % of the charge", In: chenLeak, Output: "leak_ma", Expected: 0.736, Tolerance: 0.015},
		{Source: source.Chen2020, Note: "the same with a meter of 1 mV and a slope of 0.94 V", In: chenLeak, Output: "leak_error_ma", Expected: 0.104, Tolerance: 0.002},
	},
}

var chenLeak = []string{"cell=nmc811", "voltage-before=3.7509 V", "voltage-after=3.7409 V", "days=30", "capacity=50 Ah"}

func computeLeak(a figure.Args) (figure.Results, error) {
	c, err := cell.Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	before, after, meter := a.Num("voltage-before"), a.Num("voltage-after"), a.Num("meter-error")
	hours, ah := a.Num("days")*hoursADay, a.Num("capacity")
	if !(hours > 0 && ah > 0 && meter >= 0) {
		return nil, fmt.Errorf("days and capacity must be above 0, meter-error not below: %w", figure.ErrRange)
	}
	if err := readable(c, meter, before, after); err != nil {
		return nil, err
	}
	return figure.Results{
		"leak_ma":       1000 * LeakA(c.Curve, before, after, hours, ah),
		"leak_error_ma": 1000 * LeakErrorA(c.Curve, before, after, hours, ah, meter),
	}, nil
}

// readable refuses voltages that tell no charge.
func readable(c *cell.Cell, meter float64, volts ...float64) error {
	for _, v := range volts {
		b, err := c.Rest(v, meter)
		if err != nil {
			return err
		}
		if b.Flat {
			return fmt.Errorf("%g V lies on the flat part of the curve, where rest voltage tells no charge: %w", v, figure.ErrRange)
		}
	}
	return nil
}
