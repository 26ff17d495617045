package bank

import (
	"fmt"
	"math"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure { return []*figure.Figure{HeatLoss, Relaxation} }

// LossWPerK returns the heat (W) a box loses for each kelvin between inside and
// outside: area (m²) over the resistances of its wall (thickness m, conductivity
// W/m/K) and of the air on both sides (W/m²/K).
func LossWPerK(area, thickness, conductivity, inner, outer float64) float64 {
	return area / (thickness/conductivity + 1/inner + 1/outer)
}

// SlowVolts returns the voltage (V) over a slow branch of resistance ohm and
// time constant tau (s), seconds after a current (A) set in, from volts.
func SlowVolts(volts, amps, ohm, tau, seconds float64) float64 {
	keep := math.Exp(-seconds / tau)
	return volts*keep + amps*ohm*(1-keep)
}

// HeatLoss is the figure "heat-loss".
var HeatLoss = &figure.Figure{
	Name:    "heat-loss",
	Answers: "How much heat does the battery box lose for each degree it is warmer than outside?",
	Inputs: []figure.Input{
		{Name: "area", Dim: q.SquareMetres, Doc: "all walls of the box together"},
		{Name: "thickness", Dim: q.Metres, Doc: "of the insulation"},
		{Name: "conductivity", Dim: q.WattsPerMetreK, Doc: "of the insulation", Default: "0.035 W/m/K"},
		{Name: "inner", Dim: q.Plain, Doc: "heat passing from the air inside to the wall, W/m²/K", Default: "8"},
		{Name: "outer", Dim: q.Plain, Doc: "heat passing from the wall to the air outside, W/m²/K", Default: "10"},
	},
	Outputs:  []figure.Output{{Key: "loss_w_per_k", Dim: q.WattsPerKelvin, Doc: "heat lost for each kelvin"}},
	Equation: "loss = area / (thickness/conductivity + 1/inner + 1/outer)",
	Source:   source.WallHeat,
	Range:    "a closed box of one kind of wall; edges, bolts and cables lose more",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "area", "conductivity", "inner", "outer"); err != nil {
			return nil, err
		}
		if !(a.Num("thickness") >= 0) {
			return nil, fmt.Errorf("thickness is negative: %w", figure.ErrRange)
		}
		return figure.Results{"loss_w_per_k": LossWPerK(a.Num("area"), a.Num("thickness"), a.Num("conductivity"), a.Num("inner"), a.Num("outer"))}, nil
	},
	Checks: []figure.Check{{
		Source: source.WallHeat, Note: "box of 0.5 × 0.3 × 0.3 m in 25 mm of foam",
		In:     []string{"area=0.78 m2", "thickness=25 mm", "conductivity=0.0288 W/m/K", "inner=8", "outer=10"},
		Output: "loss_w_per_k", Expected: 0.7145, Tolerance: 0.0036,
	}},
}

// Relaxation is the figure "rc-relaxation".
var Relaxation = &figure.Figure{
	Name:    "rc-relaxation",
	Answers: "How far has the slow part of a cell's voltage come, some time after the current changed?",
	Inputs: []figure.Input{
		{Name: "resistance", Dim: q.Ohms, Doc: "of the slow branch"},
		{Name: "time-constant", Dim: q.Seconds, Doc: "of the slow branch"},
		{Name: "current", Dim: q.Amperes, Doc: "since then, positive charging"},
		{Name: "time", Dim: q.Seconds, Doc: "since then"},
		{Name: "start", Dim: q.Volts, Doc: "over the branch before", Default: "0 V"},
	},
	Outputs:  []figure.Output{{Key: "voltage_v", Dim: q.Volts, Doc: "over the slow branch"}},
	Equation: "voltage = start·e^(−time/time-constant) + current·resistance·(1 − e^(−time/time-constant))",
	Source:   source.SlowBranch,
	Range:    "seconds to a few minutes; a real cell goes on creeping for hours",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "time-constant"); err != nil {
			return nil, err
		}
		if !(a.Num("time") >= 0) {
			return nil, fmt.Errorf("time is negative: %w", figure.ErrRange)
		}
		return figure.Results{"voltage_v": SlowVolts(a.Num("start"), a.Num("current"), a.Num("resistance"), a.Num("time-constant"), a.Num("time"))}, nil
	},
	Checks: []figure.Check{{
		Source: source.SlowBranch, Note: "after one time constant, 63.2 % of the way",
		In:     []string{"resistance=1 mΩ", "time-constant=60 s", "current=100 A", "time=60 s"},
		Output: "voltage_v", Expected: 0.0632121, Tolerance: 1e-6,
	}, {
		Source: source.SlowBranch, Note: "at rest, from 50 mV, after two time constants",
		In:     []string{"resistance=1 mΩ", "time-constant=60 s", "current=0 A", "time=120 s", "start=50 mV"},
		Output: "voltage_v", Expected: 0.00676676, Tolerance: 1e-7,
	}},
}

func positive(a figure.Args, names ...string) error {
	for _, name := range names {
		if v := a.Num(name); !(v > 0) || math.IsInf(v, 1) {
			return fmt.Errorf("%s is %g; it must be above zero: %w", name, v, figure.ErrRange)
		}
	}
	return nil
}
