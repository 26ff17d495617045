package setpoint

import (
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Steps between marks of temperature, K, and the limits of what is kept, °C.
const (
	FrostStep  = 5.0  // from the charge limit up to the frost lock
	HeatedBand = 2.0  // between heater on and off, beside its tolerance
	HotStep    = 5.0  // from the upper charge limit down to the stop
	LockMost   = 10.0 // highest frost lock that is kept as its owner has set it
	OnMost     = 15.0 // highest start of a heater that is kept
	OffMost    = 25.0 // highest end of it
	PadLimit   = 40.0 // surface of a heating pad
)

// LeastLock returns the lowest frost lock (°C) over a charge limit (°C) that
// leaves room for its accuracy (K).
func LeastLock(limit, tolerance float64) float64 {
	return math.Max(limit+FrostStep, math.Ceil(limit+tolerance+1))
}

// LeastOn returns where a heater starts (°C) so that a bank it holds can be charged.
func LeastOn(lock, lockTolerance, tolerance float64) float64 {
	return math.Ceil(lock + lockTolerance + tolerance + 1)
}

// LeastOff returns where it ends (°C), a step above its start.
func LeastOff(on, tolerance float64) float64 { return math.Ceil(on + 2*tolerance + HeatedBand) }

// HotStopOf returns where charging stops in heat (°C).
func HotStopOf(limit, tolerance float64) float64 {
	return math.Floor(limit - math.Max(HotStep, tolerance))
}

// FrostLock is "frost-lock".
var FrostLock = &figure.Figure{
	Name:    "frost-lock",
	Answers: "Below which temperature is charging locked, so that no cell is charged in frost?",
	Inputs:  []figure.Input{celsius("limit", "the cell is not charged below", ""), kelvin("tolerance", "accuracy of what locks")},
	Outputs: []figure.Output{
		{Key: "least_c", Dim: quantity.Celsius, Doc: "lowest lock that leaves room"},
		{Key: "most_c", Dim: quantity.Celsius, Doc: "a higher one that is set today is kept up to here"},
	},
	Equation: "least = the higher of limit + 5 K and limit + tolerance + 1 K rounded up; most = 10 °C",
	Source:   source.SettingHabit,
	Range:    "lithium; a sensor on the coldest module",
	Compute: func(a figure.Args) (figure.Results, error) {
		return figure.Results{"least_c": LeastLock(a.Num("limit"), a.Num("tolerance")), "most_c": LockMost}, nil
	},
	Checks: []figure.Check{check("a coarse one", "least_c", 7, "limit=0 °C", "tolerance=5.5 K"), check("a fine one", "least_c", 5, "limit=0 °C", "tolerance=1 K")},
}

// HeaterMarks is "heater-marks".
var HeaterMarks = &figure.Figure{
	Name:    "heater-marks",
	Answers: "Where does the heater start and end, so that a bank it holds can be charged?",
	Inputs: []figure.Input{celsius("lock", "frost lock", ""), kelvin("lock-tolerance", "its accuracy"), kelvin("tolerance", "accuracy of the heater's thermostat"),
		celsius("on", "start as set, when it is kept", "-100 °C")},
	Outputs: []figure.Output{
		{Key: "least_on_c", Dim: quantity.Celsius, Doc: "lowest start; what is set today is kept up to 15 °C"},
		{Key: "least_off_c", Dim: quantity.Celsius, Doc: "lowest end; what is set today is kept up to 25 °C"},
	},
	Equation: "least on = lock + lock-tolerance + tolerance + 1 K, rounded up; least off = the higher of least on and on + 2 × tolerance + 2 K, rounded up",
	Source:   source.SettingHabit,
	Range:    "lithium; a thermostat on the module",
	Compute: func(a figure.Args) (figure.Results, error) {
		on := LeastOn(a.Num("lock"), a.Num("lock-tolerance"), a.Num("tolerance"))
		return figure.Results{"least_on_c": on, "least_off_c": LeastOff(math.Max(on, a.Num("on")), a.Num("tolerance"))}, nil
	},
	Checks: []figure.Check{
		check("5 °C lock, 2 K and 1 K", "least_on_c", 9, "lock=5 °C", "lock-tolerance=2 K", "tolerance=1 K"),
		check("the same", "least_off_c", 13, "lock=5 °C", "lock-tolerance=2 K", "tolerance=1 K"),
	},
}

// HotStop is "hot-stop".
var HotStop = &figure.Figure{
	Name:    "hot-stop",
	Answers: "Above which temperature does charging stop?",
	Inputs:  []figure.Input{celsius("limit", "the cell is not charged above", ""), kelvin("tolerance", "accuracy of what stops it")},
	Outputs: []figure.Output{
		{Key: "stop_c", Dim: quantity.Celsius, Doc: "charging stops; what is set today is kept down to 5 K below"},
		{Key: "pad_c", Dim: quantity.Celsius, Doc: "surface of a heating pad, should its thermostat stick"},
	},
	Equation: "stop = limit − the larger of 5 K and tolerance, rounded down; pad = 40 °C",
	Source:   source.SettingHabit,
	Range:    "a sensor on the warmest module",
	Compute: func(a figure.Args) (figure.Results, error) {
		return figure.Results{"stop_c": HotStopOf(a.Num("limit"), a.Num("tolerance")), "pad_c": PadLimit}, nil
	},
	Checks: []figure.Check{check("45 °C limit", "stop_c", 40, "limit=45 °C", "tolerance=2 K"), check("coarse", "stop_c", 38, "limit=45 °C", "tolerance=7 K")},
}

func celsius(name, doc, without string) figure.Input {
	return figure.Input{Name: name, Dim: quantity.Celsius, Doc: doc, Default: without}
}

func kelvin(name, doc string) figure.Input {
	return figure.Input{Name: name, Dim: quantity.Kelvins, Doc: doc, Default: "2 K"}
}
