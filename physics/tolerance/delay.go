package tolerance

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// SagMargin is the usual factor between the sag of a load and the hysteresis of
// what disconnects it.
const SagMargin = 1.25

// DriftOf returns how far a group's voltage (V) moves while current (A) flows
// for delay (s), with capacity in Ah and the slope of its rest voltage in V per
// unit of charge: drift = I·t/(3600·C) · dV/dSoC.
func DriftOf(current, delay, capacity, slope float64) float64 {
	return current * delay / 3600 / capacity * slope
}

// HysteresisOf returns the least hysteresis (V) that does not chatter when
// current (A) starts and stops through resistance (Ω).
func HysteresisOf(current, resistance, margin float64) float64 {
	return current * resistance * margin
}

// DelayDrift is "delay-drift".
var DelayDrift = &figure.Figure{
	Name:    "delay-drift",
	Answers: "How far does a group's voltage move on while a device waits?",
	Inputs: []figure.Input{
		{Name: "current", Dim: quantity.Amperes, Doc: "current through the group"},
		{Name: "delay", Dim: quantity.Seconds, Doc: "how long the device waits"},
		{Name: "capacity", Dim: quantity.AmpereHours, Doc: "capacity of the group"},
		{Name: "slope", Dim: quantity.Volts, Doc: "rise of its rest voltage over a whole charge, as steep as it is there"},
	},
	Outputs:  []figure.Output{{Key: "drift_v", Dim: quantity.Volts, Doc: "change of the group's voltage"}},
	Equation: "drift = current × delay / (3600 × capacity) × slope",
	Source:   source.LayerStaging,
	Range:    "delays short enough that the slope stays what it is",
	Compute: func(a figure.Args) (figure.Results, error) {
		if !(a.Num("capacity") > 0) {
			return nil, fmt.Errorf("capacity must be above zero: %w", figure.ErrRange)
		}
		return figure.Results{"drift_v": DriftOf(a.Num("current"), a.Num("delay"), a.Num("capacity"), a.Num("slope"))}, nil
	},
	Checks: []figure.Check{{Source: source.Equation, Note: "100 A for 36 s is 1 Ah of 100 Ah, at 1.2 V over the whole charge",
		In:     []string{"current=100 A", "delay=36 s", "capacity=100 Ah", "slope=1.2 V"},
		Output: "drift_v", Expected: 0.012, Tolerance: 1e-12}},
}

// Hysteresis is "hysteresis".
var Hysteresis = &figure.Figure{
	Name:    "hysteresis",
	Answers: "How far apart must trip and reset be so that a disconnect does not chatter?",
	Inputs: []figure.Input{
		{Name: "current", Dim: quantity.Amperes, Doc: "largest current that stops when it opens"},
		{Name: "resistance", Dim: quantity.Ohms, Doc: "bank with everything between it and the sense point"},
		{Name: "margin", Dim: quantity.Plain, Doc: "factor on the sag", Default: "1.25"},
	},
	Outputs: []figure.Output{
		{Key: "sag_v", Dim: quantity.Volts, Doc: "how far the voltage recovers when the current stops"},
		{Key: "hysteresis_v", Dim: quantity.Volts, Doc: "least distance between trip and reset"},
	},
	Equation: "sag = current × resistance; hysteresis = sag × margin",
	Source:   source.LayerStaging,
	Range:    "seconds to minutes after the current stops",
	Compute: func(a figure.Args) (figure.Results, error) {
		i, r := a.Num("current"), a.Num("resistance")
		return figure.Results{"sag_v": i * r, "hysteresis_v": HysteresisOf(i, r, a.Num("margin"))}, nil
	},
	Checks: []figure.Check{
		{Source: source.Equation, Note: "150 A through 4.5 mΩ", In: []string{"current=150 A", "resistance=4.5 mohm"},
			Output: "sag_v", Expected: 0.675, Tolerance: 0.001},
		{Source: source.Equation, Note: "the same with 1.25", In: []string{"current=150 A", "resistance=4.5 mohm"},
			Output: "hysteresis_v", Expected: 0.844, Tolerance: 0.001},
	},
}
