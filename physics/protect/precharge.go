package protect

import "math"

// Charge is what happens while a resistor fills capacitors.
type Charge struct {
	Ohm     float64
	TauS    float64
	TimeS   float64
	PeakA   float64
	PeakW   float64
	EnergyJ float64 // turned into heat in the resistor, whatever its resistance
	StepV   float64 // difference left at the end
}

// PreCharge returns the resistor that fills farads to a fraction of volts in some
// seconds: R = -t/(C·ln(1-f)), E = ½·C·V².
func PreCharge(farads, volts, seconds, fraction float64) Charge {
	return charge(-seconds/(farads*math.Log1p(-fraction)), farads, volts, seconds, fraction)
}

// PreChargeTime returns how long a resistor takes; a load of some A behind it
// holds the capacitors at V - I·R, so the time is +Inf when that is too low.
func PreChargeTime(farads, volts, ohm, fraction, loadA float64) Charge {
	full := volts - loadA*ohm
	t := math.Inf(1)
	if fraction*volts < full {
		t = -ohm * farads * math.Log1p(-fraction*volts/full)
	}
	return charge(ohm, farads, volts, t, fraction)
}

func charge(ohm, farads, volts, seconds, fraction float64) Charge {
	return Charge{Ohm: ohm, TauS: ohm * farads, TimeS: seconds, PeakA: volts / ohm, PeakW: volts * volts / ohm,
		EnergyJ: 0.5 * farads * volts * volts, StepV: volts * (1 - fraction)}
}
