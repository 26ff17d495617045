package fit

import (
	"math"

	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/rig"
)

// number turns an optional quantity into an optional number in its base unit.
func number[Q q.Quantity](v *Q) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}

// or returns an optional quantity's value, or what is assumed without one.
func or[Q q.Quantity](v *Q, assumed float64) float64 {
	if v == nil {
		return assumed
	}
	return float64(*v)
}

// value returns a setting's number, ok when it is given and not off.
func value[Q q.Quantity](set rig.Setting[Q]) (float64, bool) { return float64(set.Value), set.On() }

// nudge keeps a value that is a whole number of steps, but for floating point,
// from being rounded a whole step away.
const nudge = 1e-6

// floorTo and ceilTo round to a multiple of step.
func floorTo(v, step float64) float64 { return tolerance.FloorTo(v, step) }
func ceilTo(v, step float64) float64  { return tolerance.CeilTo(v, step) }

// tidy drops the dust of floating point.
func tidy(v float64) float64 { return tolerance.Tidy(v) }

// wholeSteps reports whether v is a multiple of step.
func wholeSteps(v, step float64) bool {
	return math.Abs(v/step-math.Round(v/step)) < 1e-4
}

// volts, amps, degrees and kin write a number for a sentence.
func (s *study) volts(v float64) string {
	if math.Abs(v) < 0.9995 && v != 0 {
		return q.Volts.Fixed(v, "mV", 0)
	}
	if math.Abs(v) < 6 {
		return q.Volts.Fixed(v, "V", 3)
	}
	return q.Volts.Fixed(v, "V", 2)
}

func (s *study) amps(v float64) string    { return q.Amperes.Text(v, s.sys) }
func (s *study) degrees(v float64) string { return q.Celsius.Text(v, s.sys) }
func (s *study) kelvins(v float64) string { return q.Kelvins.Text(v, s.sys) }
func (s *study) percent(v float64) string { return q.Fraction.Fixed(v, "%", 0) }

func (s *study) ampHours(v float64) string { return q.AmpereHours.Text(v, s.sys) }

// fine writes a small fraction, such as a device's accuracy.
func (s *study) fine(v float64) string { return q.Fraction.Text(v, s.sys) }

// kept is what is set today when it lies in a fair range, else the standard: a
// good choice of the owner's is not changed for the sake of it.
func kept[Q q.Quantity](today rig.Setting[Q], low, high, standard float64) float64 {
	if v, on := value(today); on && v >= low-nudge && v <= high+nudge {
		return v
	}
	return standard
}

// keptStep is kept for a voltage its device can only hold in whole steps.
func keptStep(today rig.Setting[q.Voltage], step, low, high, standard float64) float64 {
	if v, on := value(today); on && !wholeSteps(v, step) {
		return standard
	}
	return kept(today, low, high, standard)
}
