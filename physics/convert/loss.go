package convert

import "math"

// Loss is the simple model of a converter's losses: what it draws idle, in W, a
// share of what it gives, and a part that grows with its square, in 1/W.
type Loss struct{ Idle, Share, Square float64 }

// In returns the power in W that must go in for out W to come out.
func (l Loss) In(out float64) float64 {
	return l.Idle + out*(1+l.Share+l.Square*out)
}

// Out returns the power in W that comes out when in W go in: 0 when that does not
// even cover the idle draw. It reverses In.
func (l Loss) Out(in float64) float64 {
	spare := in - l.Idle
	if spare <= 0 {
		return 0
	}
	linear := 1 + l.Share
	return 2 * spare / (linear + math.Sqrt(linear*linear+4*l.Square*spare))
}

// Through returns the loss of a converter of which a data sheet says how much it
// draws idle, and its efficiency at a load in W: all that idle does not explain is
// put on the share.
func Through(idle, load, efficiency float64) Loss {
	return Loss{Idle: idle, Share: max(0, 1/efficiency-1-idle/load)}
}
