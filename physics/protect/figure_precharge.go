package protect

import (
	"errors"
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

var (
	capacitance = figure.Input{Name: "capacitance", Dim: quantity.Farads, Doc: "behind the contactor, all together"}
	bankVoltage = figure.Input{Name: "voltage", Dim: quantity.Volts, Doc: "of the bank: its highest"}
	toFraction  = figure.Input{Name: "fraction", Dim: quantity.Fraction, Doc: "of the bank's voltage at which the contactor closes: 95 % or more", Default: "95 %"}

	chargeOutputs = []figure.Output{
		{Key: "resistance_ohm", Dim: quantity.Ohms, Doc: "of the resistor"},
		{Key: "energy_j", Dim: quantity.Joules, Doc: "heat in it each time; give it twice that as pulse rating"},
		{Key: "peak_w", Dim: quantity.Watts, Doc: "in the first instant; into a shorted load for as long as it is on"},
		{Key: "peak_a", Dim: quantity.Amperes, Doc: "in the first instant"},
		{Key: "tau_s", Dim: quantity.Seconds, Doc: "resistance times capacitance"},
		{Key: "time_s", Dim: quantity.Seconds, Doc: "until the fraction is reached"},
		{Key: "step_v", Dim: quantity.Volts, Doc: "left across the contactor when it closes"},
	}
)

// PreChargeFigure answers which resistor fills the capacitors in time.
var PreChargeFigure = &figure.Figure{
	Name:     "pre-charge",
	Answers:  "Which resistor fills the capacitors before the contactor closes?",
	Inputs:   []figure.Input{capacitance, bankVoltage, {Name: "time", Dim: quantity.Seconds, Doc: "until the contactor may close", Default: "1 s"}, toFraction},
	Outputs:  chargeOutputs,
	Equation: "resistance = -time / (capacitance · ln(1 - fraction)); energy = ½ · capacitance · voltage²; peak = voltage² / resistance; step = voltage · (1 - fraction)",
	Source:   source.Equation,
	Range:    "no load behind the contactor meanwhile; a resistor into a short takes its peak until it is switched off, so limit the time",
	Compute:  computePreCharge,
	Checks: []figure.Check{
		number(source.Equation, "26 V, 20 mF, 95 % in 1 s", "resistance_ohm", 16.69, 0.08, p4...),
		number(source.Equation, "the same", "peak_a", 1.56, 0.008, p4...),
		number(source.Equation, "the same", "peak_w", 40.5, 0.2, p4...),
		number(source.Equation, "the same", "energy_j", 6.76, 0.03, p4...),
		number(source.Equation, "the same", "step_v", 1.30, 0.0065, p4...),
		number(source.PreChargeSheet, "inputs published: 100 V, 10 000 µF", "energy_j", 50, 1e-9, "capacitance=10000 µF", "voltage=100 V"),
	},
}

var p4 = []string{"capacitance=20 mF", "voltage=26 V", "time=1 s", "fraction=95 %"}

func computePreCharge(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "capacitance", "voltage", "time"), partial(a)); err != nil {
		return nil, err
	}
	return results(PreCharge(a.Num("capacitance"), a.Num("voltage"), a.Num("time"), a.Num("fraction"))), nil
}

// partial refuses a fraction that is none or is never reached.
func partial(a figure.Args) error {
	if f := a.Num("fraction"); !(f > 0 && f < 1) {
		return fmt.Errorf("fraction must lie between 0 and 100 %%: %w", figure.ErrRange)
	}
	return nil
}

func results(c Charge) figure.Results {
	return figure.Results{"resistance_ohm": c.Ohm, "energy_j": c.EnergyJ, "peak_w": c.PeakW, "peak_a": c.PeakA, "tau_s": c.TauS, "time_s": c.TimeS, "step_v": c.StepV}
}

// PreChargeTimeFigure answers how long a resistor takes.
var PreChargeTimeFigure = &figure.Figure{
	Name:    "pre-charge-time",
	Answers: "How long does this resistor take to fill the capacitors?",
	Inputs: []figure.Input{capacitance, bankVoltage, {Name: "resistance", Dim: quantity.Ohms, Doc: "of the resistor"}, toFraction,
		{Name: "load", Dim: quantity.Amperes, Doc: "that draws behind the contactor meanwhile", Default: "0 A"}},
	Outputs:  chargeOutputs,
	Equation: "time = -resistance · capacitance · ln(1 - fraction · voltage / (voltage - load · resistance)); energy, peak and step as in the figure pre-charge",
	Source:   source.Equation,
	Range:    "a steady load holds the capacitors at voltage - load · resistance: below the fraction it is refused, for it is never reached",
	Compute:  computeTime,
	Checks: []figure.Check{
		number(source.PreChargeSheet, "printed: time constant 47.0 ms", "tau_s", 0.0470, 0.00005, p1...),
		number(source.PreChargeSheet, "printed as three time constants: 141 ms; exactly 140.8 ms", "time_s", 0.1408, 0.0001, p1...),
		number(source.PreChargeSheet, "printed: 99 % after 216.4 ms", "time_s", 0.2164, 0.0001, append([]string{"fraction=99 %"}, p1...)...),
		number(source.PreChargeSheet, "printed: 17.0 A", "peak_a", 17.0, 0.05, p1...),
		number(source.PreChargeSheet, "printed: 13 617 W", "peak_w", 13617, 0.5, p1...),
		number(source.PreChargeSheet, "printed: 320 J", "energy_j", 320, 0.5, p1...),
	},
}

var p1 = []string{"capacitance=1000 µF", "voltage=800 V", "resistance=47 Ω"}

func computeTime(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "capacitance", "voltage", "resistance"), partial(a)); err != nil {
		return nil, err
	}
	c := PreChargeTime(a.Num("capacitance"), a.Num("voltage"), a.Num("resistance"), a.Num("fraction"), a.Num("load"))
	if math.IsInf(c.TimeS, 1) {
		return nil, fmt.Errorf("the load holds the capacitors at %.4g V, below %.4g V: switch it off first: %w",
			a.Num("voltage")-a.Num("load")*a.Num("resistance"), a.Num("voltage")*a.Num("fraction"), figure.ErrRange)
	}
	return results(c), nil
}

// ClosingCurrent answers what current the contactor closes onto.
var ClosingCurrent = &figure.Figure{
	Name:     "closing-current",
	Answers:  "What current does the contactor close onto?",
	Inputs:   []figure.Input{bankVoltage, toFraction, {Name: "loop", Dim: quantity.Ohms, Doc: "bank and cables out and back"}},
	Outputs:  []figure.Output{{Key: "current_a", Dim: quantity.Amperes, Doc: "in the first instant"}, {Key: "step_v", Dim: quantity.Volts, Doc: "across the contactor"}},
	Equation: "current = voltage · (1 - fraction) / loop",
	Source:   source.Equation,
	Range:    "without the inductance of the cables and the resistance of the capacitors, which lower it",
	Compute:  computeClosing,
	Checks: []figure.Check{
		number(source.Equation, "26 V at 95 % through 3 mΩ", "current_a", 433, 4.3, "voltage=26 V", "loop=3 mΩ"),
	},
}

func computeClosing(a figure.Args) (figure.Results, error) {
	if err := positive(a, "voltage", "loop"); err != nil {
		return nil, err
	}
	if f := a.Num("fraction"); !(f >= 0 && f < 1) {
		return nil, fmt.Errorf("fraction must lie between 0 and 100 %%: %w", figure.ErrRange)
	}
	step := a.Num("voltage") * (1 - a.Num("fraction"))
	return figure.Results{"current_a": step / a.Num("loop"), "step_v": step}, nil
}
