package setpoint

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/tolerance"
	"ampstead/quantity"
	"ampstead/source"
)

// Habits of ending and starting a charge of lithium.
const (
	TailRate     = 0.05 // 1/h, charging ends below this current over capacity
	TailShare    = 0.2  // of the charger's own current, so that a small charger ends too
	RestartDepth = 0.10 // of the charge given back before charging starts again
)

// Tail returns the current (A) at which charging ends, of a bank (Ah) and a
// charger's current (A), in steps such as chargers have.
func Tail(capacity, current float64) float64 {
	tail := math.Min(TailRate*capacity, TailShare*current)
	if tail >= 1 {
		return tolerance.FloorTo(tail, 0.5)
	}
	return math.Max(0.1, tolerance.FloorTo(tail, 0.1))
}

// Share returns a source's part (A) of what the cells take, allowed, when all
// sources together could give total; whole amperes above one.
func Share(limit, total, allowed float64) float64 {
	share := limit * math.Min(1, allowed/total)
	if share >= 1 {
		return tolerance.FloorTo(share, 1)
	}
	return share
}

// TailCurrent is "tail-current".
var TailCurrent = &figure.Figure{
	Name:    "tail-current",
	Answers: "At which current is a lithium bank taken as full?",
	Inputs: []figure.Input{
		{Name: "capacity", Dim: quantity.AmpereHours, Doc: "of the bank"},
		{Name: "current", Dim: quantity.Amperes, Doc: "what this charger is set to give"},
	},
	Outputs:  []figure.Output{{Key: "tail_a", Dim: quantity.Amperes, Doc: "charging ends below it"}},
	Equation: "tail = the smaller of capacity × 0.05 per hour and current × 0.2, rounded down to 0.5 A, below 1 A to 0.1 A",
	Source:   source.SettingHabit,
	Range:    "lithium; it only ends the charge, the voltage is what guards the cells",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "capacity", "current"); err != nil {
			return nil, err
		}
		return figure.Results{"tail_a": Tail(a.Num("capacity"), a.Num("current"))}, nil
	},
	Checks: []figure.Check{
		check("a twentieth of 280 Ah", "tail_a", 14, "capacity=280 Ah", "current=100 A"),
		check("a fifth of a small charger's 8 A", "tail_a", 1.5, "capacity=280 Ah", "current=8 A"),
		check("below 1 A in tenths", "tail_a", 0.8, "capacity=280 Ah", "current=4 A"),
	},
}

// ChargeShare is "charge-share".
var ChargeShare = &figure.Figure{
	Name:    "charge-share",
	Answers: "To what current is each of several sources limited so that together they give what the cells take?",
	Inputs: []figure.Input{
		{Name: "limit", Dim: quantity.Amperes, Doc: "most this source gives"},
		{Name: "total", Dim: quantity.Amperes, Doc: "most all sources give together"},
		{Name: "allowed", Dim: quantity.Amperes, Doc: "what the cells take when warm"},
	},
	Outputs:  []figure.Output{{Key: "current_a", Dim: quantity.Amperes, Doc: "set on this source"}},
	Equation: "current = limit × the smaller of 1 and allowed / total, rounded down to whole amperes",
	Source:   source.SettingHabit,
	Range:    "sources in parallel that do not know of each other",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := positive(a, "limit", "total", "allowed"); err != nil {
			return nil, err
		}
		return figure.Results{"current_a": Share(a.Num("limit"), a.Num("total"), a.Num("allowed"))}, nil
	},
	Checks: []figure.Check{
		check("60 A of 150 A, 100 A allowed", "current_a", 40, "limit=60 A", "total=150 A", "allowed=100 A"),
		check("all within what is allowed", "current_a", 60, "limit=60 A", "total=90 A", "allowed=100 A"),
	},
}

// Storage returns the voltage (V) of a bank that rests as it is best stored.
func Storage(c *cell.Cell, series float64) float64 {
	return c.Curve.Voltage(c.StorageSoC.Value) * series
}

// StorageVoltage is "storage-voltage".
var StorageVoltage = &figure.Figure{
	Name:    "storage-voltage",
	Answers: "How low must float be set where it cannot be switched off?",
	Inputs: []figure.Input{
		{Name: "cell", Doc: "cell of the library", Example: "nmc532"},
		{Name: "series", Dim: quantity.Plain, Doc: "groups in series", Default: "1"},
	},
	Outputs: []figure.Output{
		{Key: "voltage_v", Dim: quantity.Volts, Doc: "float is set no higher"},
		{Key: "soc_fraction", Dim: quantity.Fraction, Doc: "charge a bank is best left at"},
	},
	Equation: "voltage = rest voltage at the charge the cell is best stored at × series; a lithium bank is not held full",
	Source:   source.SettingHabit,
	Range:    "lithium; lead-acid wants to be held full",
	Compute: func(a figure.Args) (figure.Results, error) {
		c, err := cell.Lookup(a.Text("cell"))
		if err != nil {
			return nil, err
		}
		return figure.Results{"voltage_v": Storage(c, a.Num("series")), "soc_fraction": c.StorageSoC.Value}, nil
	},
	Checks: []figure.Check{
		{Source: source.Mohtat2020, Note: "nmc532 at 40 %, over 12", In: []string{"cell=nmc532", "series=12"},
			Output: "voltage_v", Expected: 12 * 3.6710, Tolerance: 12 * 0.002},
	},
}

// Restart returns the voltage (V) of a bank at which charging starts again, or
// after a low cut loads come back (up): a share of the charge away from setting
// (V of the bank, over series groups), and clear of the hysteresis (V) its own
// current asks for, in steps of the device (V).
func Restart(c cell.Curve, setting, series, depth, hysteresis, step float64, up bool) float64 {
	at := c.SoC(setting / series)
	if up {
		return tolerance.CeilTo(math.Max(c.Voltage(at+depth)*series, setting+hysteresis), step)
	}
	return tolerance.FloorTo(math.Min(c.Voltage(at-depth)*series, setting-hysteresis), step)
}

// RestartVoltage is "restart-voltage".
var RestartVoltage = &figure.Figure{
	Name:    "restart-voltage",
	Answers: "At which voltage does charging start again, or do loads come back after a low cut?",
	Inputs: []figure.Input{
		{Name: "cell", Doc: "cell of the library", Example: "nmc532"},
		{Name: "setting", Dim: quantity.Volts, Doc: "where it stopped"},
		{Name: "series", Dim: quantity.Plain, Doc: "groups in series"},
		{Name: "depth", Dim: quantity.Fraction, Doc: "of the charge, used or charged again before", Default: "10 %"},
		{Name: "hysteresis", Dim: quantity.Volts, Doc: "what the voltage springs back by, with a margin", Default: "0 V"},
		{Name: "step", Dim: quantity.Volts, Doc: "finest step of the device", Default: "0.1 V"},
		{Name: "side", Doc: "full (charging) or empty (loads)", Default: "full", Example: "empty"},
	},
	Outputs: []figure.Output{{Key: "restart_v", Dim: quantity.Volts, Doc: "set on the device"}},
	Equation: "full: restart = the lower of U(soc(setting / series) − depth) × series and setting − hysteresis, rounded down to a step; " +
		"empty: the higher of U(soc(setting / series) + depth) × series and setting + hysteresis, rounded up",
	Source:  source.SettingHabit,
	Range:   "rest voltage U of the cell; lithium",
	Compute: restart,
	Checks: []figure.Check{
		check("half a volt of sag governs", "restart_v", 48.7, "cell=nmc532", "setting=49.2 V", "series=12", "depth=0 %", "hysteresis=0.5 V"),
		check("upwards, rounded up", "restart_v", 40.6, "cell=nmc532", "setting=40 V", "series=12", "depth=0 %", "hysteresis=0.55 V", "side=empty"),
	},
}

func restart(a figure.Args) (figure.Results, error) {
	c, err := cell.Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	if err := positive(a, "setting", "series", "step"); err != nil {
		return nil, err
	}
	side := a.Text("side")
	if side != "full" && side != "empty" {
		return nil, fmt.Errorf("side %q: expected full or empty", side)
	}
	return figure.Results{"restart_v": Restart(c.Curve, a.Num("setting"), a.Num("series"), a.Num("depth"), a.Num("hysteresis"), a.Num("step"), side == "empty")}, nil
}

func positive(a figure.Args, names ...string) error {
	for _, name := range names {
		if !(a.Num(name) > 0) {
			return fmt.Errorf("%s must be above zero: %w", name, figure.ErrRange)
		}
	}
	return nil
}

func check(note, out string, want float64, in ...string) figure.Check {
	return figure.Check{Source: source.Equation, Note: note + ", worked by hand", In: in, Output: out, Expected: want, Tolerance: 1e-6}
}
