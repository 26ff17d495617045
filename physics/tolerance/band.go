package tolerance

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Threshold is one voltage threshold of one device. Voltages in V.
type Threshold struct {
	Setting   float64 // as dialled in
	Tolerance float64 // fraction of the setting
	Error     float64 // absolute error of the device
	Series    float64 // groups it measures over; 1 for a cell meter
	Spread    float64 // nearest cell to the mean, when it measures over several
	Drop      float64 // largest difference between the bank and its sense point
	Drift     float64 // how far the cell moves on during the device's delay
	High      bool    // acts on high voltage; otherwise on low
}

// Band is where the cell nearest to harm can stand as a device acts, V.
type Band struct {
	Low, High     float64 // with everything against you
	Middle, Half  float64 // centre and half width by root-sum-square
	Inner, Beyond float64 // Low and High in the direction of harm: first and last moment
}

// BandOf sees a threshold at the cell nearest to harm. On the high side, with
// setting S, tolerance p, absolute error e and N groups:
//
//	low  = (S(1-p) - e - drop) / N
//	high = (S(1+p) + e) / N + spread + drift
//
// The low side is its mirror. A sensing drop lets a device act early, since a
// charger's terminals stand above the bank and a load's below it; spread and
// delay let the worst cell run on. By root-sum-square the one-sided terms count
// as half their size about their middle.
func BandOf(t Threshold) Band {
	sign := -1.0
	if t.High {
		sign = 1
	}
	mid := t.Setting / t.Series
	err := (t.Setting*t.Tolerance + t.Error) / t.Series
	early, late := t.Drop/t.Series, t.Spread+t.Drift
	b := Band{
		Inner:  mid - sign*(err+early),
		Beyond: mid + sign*(err+late),
		Middle: mid + sign*(late-early)/2,
		Half:   RSSOf(err, early/2, t.Spread/2, t.Drift/2),
	}
	b.Low, b.High = min(b.Inner, b.Beyond), max(b.Inner, b.Beyond)
	return b
}

// Farthest returns the setting whose band ends exactly at limit (V per cell) on
// the side of harm; Setting of t is ignored.
func Farthest(t Threshold, limit float64) float64 {
	if t.High {
		return ((limit-t.Spread-t.Drift)*t.Series - t.Error) / (1 + t.Tolerance)
	}
	return ((limit+t.Spread+t.Drift)*t.Series + t.Error) / (1 - t.Tolerance)
}

// LayerBand is "layer-band".
var LayerBand = &figure.Figure{
	Name:    "layer-band",
	Answers: "Where can the cell nearest to harm be when a device set to this voltage acts?",
	Inputs: []figure.Input{
		{Name: "setting", Dim: quantity.Volts, Doc: "threshold as set on the device"},
		{Name: "series", Dim: quantity.Plain, Doc: "groups it measures over; 1 for a cell meter", Default: "1"},
		{Name: "tolerance", Dim: quantity.Fraction, Doc: "accuracy of the device, of the setting", Default: "0 %"},
		{Name: "error", Dim: quantity.Volts, Doc: "accuracy of the device, absolute", Default: "0 V"},
		{Name: "spread", Dim: quantity.Volts, Doc: "the nearest cell's distance from the mean", Default: "0 V"},
		{Name: "drop", Dim: quantity.Volts, Doc: "most voltage between the bank and where the device measures", Default: "0 V"},
		{Name: "drift", Dim: quantity.Volts, Doc: "how far that cell moves on before the device acts", Default: "0 V"},
		{Name: "side", Doc: "high or low", Default: "high", Example: "low"},
	},
	Outputs: []figure.Output{
		{Key: "cell_v", Dim: quantity.Volts, Doc: "the setting over the groups"},
		{Key: "low_v", Dim: quantity.Volts, Doc: "lowest voltage of that cell, worst case"},
		{Key: "high_v", Dim: quantity.Volts, Doc: "highest voltage of that cell, worst case"},
		{Key: "likely_low_v", Dim: quantity.Volts, Doc: "lowest by root-sum-square"},
		{Key: "likely_high_v", Dim: quantity.Volts, Doc: "highest by root-sum-square"},
	},
	Equation: "high side: low = (setting × (1 − tolerance) − error − drop) / series, " +
		"high = (setting × (1 + tolerance) + error) / series + spread + drift; the low side mirrors it",
	Source:  source.LayerStaging,
	Range:   "a device that measures the whole bank or one group",
	Compute: computeBand,
	Checks: []figure.Check{
		bandCheck("49.8 V ± 0.5 % over 12, spread 8 mV, worked by hand", "high_v", 4.17875),
		bandCheck("the same, first moment", "low_v", 4.12925),
	},
}

func bandCheck(note, key string, want float64) figure.Check {
	return figure.Check{Source: source.Equation, Note: note, Output: key, Expected: want, Tolerance: 1e-9,
		In: []string{"setting=49.8 V", "series=12", "tolerance=0.5 %", "spread=8 mV"}}
}

func computeBand(a figure.Args) (figure.Results, error) {
	t, err := thresholdOf(a)
	if err != nil {
		return nil, err
	}
	if t.Setting, t.Drop = a.Num("setting"), a.Num("drop"); t.Drop < 0 {
		return nil, fmt.Errorf("drop counts as a magnitude: %w", figure.ErrRange)
	}
	b := BandOf(t)
	return figure.Results{"cell_v": t.Setting / t.Series, "low_v": b.Low, "high_v": b.High,
		"likely_low_v": b.Middle - b.Half, "likely_high_v": b.Middle + b.Half}, nil
}

// thresholdOf reads what the figures of a threshold have in common.
func thresholdOf(a figure.Args) (Threshold, error) {
	t := Threshold{Series: a.Num("series"), Tolerance: a.Num("tolerance"), Error: a.Num("error"), Spread: a.Num("spread"), Drift: a.Num("drift")}
	switch a.Text("side") {
	case "high":
		t.High = true
	case "low":
	default:
		return t, fmt.Errorf("side %q: expected high or low", a.Text("side"))
	}
	if !(t.Series >= 1) {
		return t, fmt.Errorf("series %g is less than 1: %w", t.Series, figure.ErrRange)
	}
	if min(t.Tolerance, t.Error, t.Spread, t.Drift) < 0 {
		return t, fmt.Errorf("tolerance, error, spread and drift count as magnitudes: %w", figure.ErrRange)
	}
	return t, nil
}
