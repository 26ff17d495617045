package setpoint

import (
	"math"

	"ampstead/figure"
	"ampstead/physics/tolerance"
	"ampstead/quantity"
	"ampstead/source"
)

// SpreadAlarmOf returns from where an alarm on the distance between groups (V)
// is clear of the spread there is and of two readings' error, and where it is
// set, in steps of the meter.
func SpreadAlarmOf(spread, err, step float64) (least, set float64) {
	worst := spread + 2*err
	return tolerance.CeilTo(worst, step), tolerance.CeilTo(1.5*worst, step)
}

// SpreadAlarm is "spread-alarm".
var SpreadAlarm = &figure.Figure{
	Name:    "spread-alarm",
	Answers: "From which distance between groups does a cell meter warn?",
	Inputs: []figure.Input{
		{Name: "spread", Dim: quantity.Volts, Doc: "the larger of the spread near full and near empty"},
		{Name: "error", Dim: quantity.Volts, Doc: "accuracy of one reading"},
		{Name: "step", Dim: quantity.Volts, Doc: "finest step of the meter", Default: "10 mV"},
	},
	Outputs: []figure.Output{
		{Key: "least_v", Dim: quantity.Volts, Doc: "clear of what is there; what is set today is kept from here, up to the larger of 50 mV and the next"},
		{Key: "set_v", Dim: quantity.Volts, Doc: "set otherwise"},
	},
	Equation: "least = spread + 2 × error, set = 1.5 × (spread + 2 × error), each rounded up to a step",
	Source:   source.SettingHabit,
	Range:    "a meter on every group",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "step"); err != nil {
			return nil, err
		}
		least, set := SpreadAlarmOf(math.Abs(a.Num("spread")), math.Abs(a.Num("error")), a.Num("step"))
		return figure.Results{"least_v": least, "set_v": set}, nil
	},
	Checks: []figure.Check{
		check("30 mV and two times 5 mV", "least_v", 0.04, "spread=30 mV", "error=5 mV"),
		check("the same, half as much again", "set_v", 0.06, "spread=30 mV", "error=5 mV"),
	},
}

// Figures lists this package's figures.
func Figures() []*figure.Figure {
	return []*figure.Figure{TailCurrent, ChargeShare, StorageVoltage, RestartVoltage, SettingTime, FrostLock, HeaterMarks, HotStop, SpreadAlarm, AcidTail, BankDraw}
}
