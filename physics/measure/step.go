package measure

import "math"

// OhmOf returns the resistance (Ω) a step of current shows and its standard
// error, from the voltages (V) before and after, their standard error each, and
// the change of current (A): R = (after − before)/step.
func OhmOf(before, after, voltErr, step float64) (ohm, sigma float64) {
	return (after - before) / step, math.Sqrt2 * voltErr / math.Abs(step)
}
