package tolerance

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Reserve is kept between layers that already count every tolerance, V per
// cell; ours. It also covers what the drift during a delay leaves out: the slow
// part of a group's own voltage, some tenths of a millivolt.
const Reserve = 0.002

// Place is how a threshold is put inside a limit.
type Place struct {
	Limit       float64 // where the next layer towards harm begins to act, V of the cell
	Step        float64 // finest step of the device, V
	Gentle      float64 // preferred for a long life, V on the device; 0 for none
	Raise       float64 // set no farther out than this, V on the device; 0 for none
	Least, Most float64 // what the device can be set to, V; 0 where not known
}

// Settle returns the setting (V on the device) that lies inside the limit with
// every tolerance against it, and the one farthest towards harm that would.
func (p Place) Settle(t Threshold) (set, fits float64) {
	room := p.Limit + Reserve
	if t.High {
		room = p.Limit - Reserve
	}
	fits = p.inward(t, Farthest(t, room))
	set = fits
	if p.Gentle != 0 {
		set = gentler(t, fits, p.inward(t, p.Gentle))
	}
	if p.Most != 0 && set > p.Most {
		set = FloorTo(p.Most, p.Step)
	}
	if reach := CeilTo(p.Least, p.Step); set < reach && gentler(t, reach, fits) == reach {
		set = reach
	}
	if p.Raise != 0 {
		set = gentler(t, set, p.inward(t, p.Raise))
	}
	return set, fits
}

func (p Place) inward(t Threshold, v float64) float64 {
	if t.High {
		return FloorTo(v, p.Step)
	}
	return CeilTo(v, p.Step)
}

func gentler(t Threshold, a, b float64) float64 {
	if t.High {
		return min(a, b)
	}
	return max(a, b)
}

// nudge keeps a value that is a whole number of steps, but for floating point,
// from being rounded a whole step away.
const nudge = 1e-6

// FloorTo rounds down to a multiple of step.
func FloorTo(v, step float64) float64 { return Tidy(math.Floor(v/step+nudge) * step) }

// CeilTo rounds up to a multiple of step.
func CeilTo(v, step float64) float64 { return Tidy(math.Ceil(v/step-nudge) * step) }

// Tidy drops the dust of floating point: 49.1, not 49.10000000000001.
func Tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// LayerSetting is "layer-setting".
var LayerSetting = &figure.Figure{
	Name:    "layer-setting",
	Answers: "What is set on a device so that it acts inside the next layer towards harm, whatever its tolerance?",
	Inputs: []figure.Input{
		{Name: "limit", Dim: quantity.Volts, Doc: "where the next layer towards harm begins to act, of the cell"},
		{Name: "preferred", Dim: quantity.Volts, Doc: "gentler setting preferred for a long life, on the device; 0 for none", Default: "0 V"},
		{Name: "series", Dim: quantity.Plain, Doc: "groups it measures over; 1 for a cell meter", Default: "1"},
		{Name: "tolerance", Dim: quantity.Fraction, Doc: "accuracy of the device, of the setting", Default: "0 %"},
		{Name: "error", Dim: quantity.Volts, Doc: "accuracy of the device, absolute", Default: "0 V"},
		{Name: "spread", Dim: quantity.Volts, Doc: "the nearest cell's distance from the mean", Default: "0 V"},
		{Name: "drift", Dim: quantity.Volts, Doc: "how far that cell moves on before the device acts", Default: "0 V"},
		{Name: "step", Dim: quantity.Volts, Doc: "finest step of the device", Default: "0.1 V"},
		{Name: "least", Dim: quantity.Volts, Doc: "lowest it can be set to; 0 where not known", Default: "0 V"},
		{Name: "most", Dim: quantity.Volts, Doc: "highest it can be set to; 0 where not known", Default: "0 V"},
		{Name: "raise", Dim: quantity.Volts, Doc: "set no farther out than this, so that nothing stops or runs empty before; 0 for none", Default: "0 V"},
		{Name: "side", Doc: "high or low", Default: "high", Example: "low"},
	},
	Outputs: []figure.Output{
		{Key: "setting_v", Dim: quantity.Volts, Doc: "set on the device"},
		{Key: "cell_v", Dim: quantity.Volts, Doc: "the same over the groups"},
		{Key: "farthest_v", Dim: quantity.Volts, Doc: "the farthest towards harm that would fit"},
	},
	Equation: "high side: farthest = ((limit − 2 mV − spread − drift) × series − error) / (1 + tolerance), rounded down to a step; " +
		"setting = the lower of farthest and preferred, within what the device can be set to; the low side mirrors it",
	Source:  source.LayerStaging,
	Range:   "a device that measures the whole bank or one group; 2 mV are kept in reserve",
	Compute: computePlace,
	Checks: []figure.Check{
		placed("49.8 V is the most that keeps 0.5 % and 8 mV below 4.185 V over 12", "farthest_v", 49.8, "limit=4.185 V", "series=12", "tolerance=0.5 %", "spread=8 mV"),
		placed("gentler where it is preferred", "setting_v", 49.2, "limit=4.185 V", "preferred=49.2 V", "series=12", "tolerance=0.5 %", "spread=8 mV"),
		placed("a cell meter on the low side", "setting_v", 3.02, "limit=3 V", "error=10 mV", "step=10 mV", "side=low"),
	},
}

func placed(note, key string, want float64, in ...string) figure.Check {
	return figure.Check{Source: source.Equation, Note: note + ", worked by hand", Output: key, Expected: want, Tolerance: 1e-9, In: in}
}

func computePlace(a figure.Args) (figure.Results, error) {
	t, err := thresholdOf(a)
	if err != nil {
		return nil, err
	}
	if !(a.Num("step") > 0 && t.Tolerance < 1) {
		return nil, fmt.Errorf("step is above 0 and tolerance below 100 %%: %w", figure.ErrRange)
	}
	p := Place{Limit: a.Num("limit"), Step: a.Num("step"), Gentle: a.Num("preferred"), Raise: a.Num("raise"), Least: a.Num("least"), Most: a.Num("most")}
	set, fits := p.Settle(t)
	return figure.Results{"setting_v": set, "cell_v": set / t.Series, "farthest_v": fits}, nil
}
