package setpoint

import (
	"math"

	"ampstead/figure"
	"ampstead/physics/tolerance"
	"ampstead/quantity"
	"ampstead/source"
)

// AcidTailOf returns the current (A) at which a lead-acid battery (Ah) is full.
func AcidTailOf(capacity float64) float64 {
	return math.Max(0.1, tolerance.FloorTo(0.02*capacity, 0.1))
}

// AcidTail is "acid-tail".
var AcidTail = &figure.Figure{
	Name:     "acid-tail",
	Answers:  "At which current is a lead-acid battery taken as full?",
	Inputs:   []figure.Input{{Name: "capacity", Dim: quantity.AmpereHours, Doc: "of the battery"}},
	Outputs:  []figure.Output{{Key: "tail_a", Dim: quantity.Amperes, Doc: "charging ends below it"}},
	Equation: "tail = capacity × 0.02 per hour, rounded down to 0.1 A",
	Source:   source.SettingHabit,
	Range:    "lead-acid at its absorption voltage",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "capacity"); err != nil {
			return nil, err
		}
		return figure.Results{"tail_a": AcidTailOf(a.Num("capacity"))}, nil
	},
	Checks: []figure.Check{check("a fiftieth of 210 Ah", "tail_a", 4.2, "capacity=210 Ah")},
}

// DrawOf returns what everything on a bank draws for long (A), from the power (W)
// each takes from it.
func DrawOf(watts []float64, volts float64) float64 {
	sum := 0.0
	for _, w := range watts {
		sum += w
	}
	return sum / volts
}

// BankDraw is "bank-draw".
var BankDraw = &figure.Figure{
	Name:    "bank-draw",
	Answers: "What can everything on the bank draw from it for long?",
	Inputs: []figure.Input{
		{Name: "powers", Dim: quantity.Watts, List: true, Doc: "what each device takes from the bank: rated power over efficiency", Example: "3333,341"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "bank at the bottom of its daily window"},
	},
	Outputs:  []figure.Output{{Key: "current_a", Dim: quantity.Amperes, Doc: "all of them together"}},
	Equation: "current = sum of powers / voltage",
	Source:   source.Equation,
	Range:    "all at full power at once, the bank nearly empty",
	Compute: func(a figure.Args) (figure.Results, error) {
		list, err := a.List("powers", quantity.Watts)
		if err != nil {
			return nil, err
		}
		if err := positive(a, "voltage"); err != nil {
			return nil, err
		}
		return figure.Results{"current_a": DrawOf(list, a.Num("voltage"))}, nil
	},
	Checks: []figure.Check{check("3000 W and 300 W at 40 V", "current_a", 82.5, "powers=3000,300", "voltage=40 V")},
}
