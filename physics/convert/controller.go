package convert

import "math"

// Controller is a solar charge controller that finds the panels' best voltage.
// Zero limits do not limit.
type Controller struct {
	Efficiency float64 // fraction
	Idle       float64 // W it draws from the bank, day and night
	Current    float64 // A it gives at most
	Power      float64 // W it takes from the panels at most
}

// Charge is what a controller makes of the sun.
type Charge struct {
	Current float64 // A into the bank; negative when idling draws more than comes in
	Lost    float64 // W turned into heat in it
	Unused  float64 // W the panels could have given beyond its limits
}

// Charge returns what the controller gives a bank of some volts from panels that
// could give array W. The current limit holds for what it delivers, before its
// own draw.
func (c Controller) Charge(array, bankVolts float64) Charge {
	most := math.Inf(1)
	if c.Power > 0 {
		most = c.Power
	}
	if c.Current > 0 {
		most = min(most, c.Current*bankVolts/c.Efficiency)
	}
	taken := max(0, min(array, most))
	given := taken * c.Efficiency
	return Charge{Current: (given - c.Idle) / bankVolts, Lost: taken - given + c.Idle, Unused: max(0, array-taken)}
}
