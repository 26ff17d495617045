package prove

import "math"

// flowed is for how long of the time between two rows current flowed, s. A tester
// writes a row when it switches off and rests at a slower pace: then the load
// ended with its last row.
func (in *intake) flowed(seconds float64) float64 {
	usual := in.interval
	in.interval = seconds
	if in.now.quiet && !in.before.quiet && seconds > eventTimes*usual {
		return usual
	}
	return seconds
}

// eventTimes is how many times its neighbour an interval must last to be taken
// for a change of pace at an event.
const eventTimes = 3

// mark brings scale, noise and the row's own class up to date.
func (in *intake) mark() {
	held := math.Min(math.Abs(in.now.a), math.Abs(in.before.a))
	in.scale = math.Max(in.scale, held)
	in.now.quiet = math.Abs(in.now.a) < in.quietBelow()
	if in.now.quiet && in.before.quiet {
		change := math.Min(math.Abs(in.now.v-in.before.v), 5*in.noiseV+2*in.grain.volts.step()) // a jump is no noise
		in.noiseV += (change*meanChange - in.noiseV) / 100
	}
}

// meanChange turns the mean change between two readings with normal noise into
// the standard deviation of one: √π/2.
const meanChange = 0.886

// apart tells whether two rows do not follow one another in time: a new cycle
// whose first voltage the last one's current cannot explain.
func apart(a, b *reading) bool {
	if a.cycle == b.cycle {
		return false
	}
	jump := math.Abs(b.v-a.v) / math.Max(a.v, 1e-9)
	alike := math.Abs(b.a-a.a) < 0.05*math.Max(math.Abs(a.a), math.Abs(b.a)) || math.Abs(b.a-a.a) < 0.02
	return b.t <= a.t || jump > 0.05 || alike && jump > 0.003
}

// quietBelow is the current (A) below which nothing flows: a share of the
// largest, or what noise and resolution leave open.
func (in *intake) quietBelow() float64 {
	least := 0.005 * in.scale
	return math.Max(least, math.Max(4*in.noise, math.Min(1.6*in.grain.amps.step(), 3*least)))
}

// switched tells a step of current from noise and from tapering.
func (in *intake) switched() bool {
	a, b := in.before.a, in.now.a
	change := math.Abs(b - a)
	large := math.Max(0.15*math.Max(math.Abs(a), math.Abs(b)), 0.03*in.scale)
	if change > math.Max(math.Max(large, 6*in.noise), in.least) {
		return true
	}
	if in.rows == 2 {
		in.noise = change
	}
	in.noise += (change - in.noise) / 100
	return in.now.quiet != in.before.quiet && change > 4*in.noise
}
