package conductor

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// VoltageDrop answers how much a run of cable loses.
var VoltageDrop = &figure.Figure{
	Name:    "voltage-drop",
	Answers: "How much voltage is lost on the way out and back?",
	Inputs:  []figure.Input{ofSize, oneWay, current, supply, copperAt},
	Outputs: []figure.Output{
		{Key: "drop_v", Dim: quantity.Volts, Doc: "lost in both conductors together"},
		{Key: "drop_percent", Dim: quantity.Percent, Doc: "the same in percent of the voltage"},
		{Key: "trade_drop_v", Dim: quantity.Volts, Doc: "lost by the formula of the trade, whatever the temperature"},
	},
	Equation: "drop = 2 · length · r(size, temperature) · current; r as in the figure conductor; trade: drop = 10.75 · current · 2 · length / CM, length in ft, CM the copper in circular mils",
	Source:   source.ConductorTables,
	Range:    "copper, dc, sizes of the figure conductor; joints, lugs and fuses not included; a drop beyond the voltage is refused",
	Compute:  computeDrop,
	Checks: []figure.Check{
		number(source.Equation, "50 mm² class 5, 2 m + 2 m, 100 A, 20 °C", "drop_v", 0.1544, 0.0008,
			"size=50 mm2", "length=2 m", "current=100 A", "voltage=12 V"),
		number(source.Equation, "the same at 75 °C", "drop_v", 0.1878, 0.0009,
			"size=50 mm2", "length=2 m", "current=100 A", "voltage=12 V", "temperature=75 °C"),
		number(source.Equation, "the same in percent of 12 V", "drop_percent", 1.565, 0.008,
			"size=50 mm2", "length=2 m", "current=100 A", "voltage=12 V", "temperature=75 °C"),
		number(source.ABYCDrop, "pump of the trade's example in 12 AWG: 10.75 · 10 A · 21 ft / 6530 cmil", "trade_drop_v", 0.3457, 0.0002,
			"size=12 AWG", "length=10.5 ft", "current=10 A", "voltage=12 V"),
		number(source.NECTable8, "1000 ft + 1000 ft of 12 AWG at 75 °C, 1 A: 2 · 1.98 V", "drop_v", 3.96, 0.002,
			"size=12 AWG", "length=1000 ft", "current=1 A", "voltage=12 V", "temperature=75 °C"),
	},
}

func computeDrop(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "voltage"), notNegative(a, "length", "current")); err != nil {
		return nil, err
	}
	size, err := quantity.ParseSize(a.Text("size"))
	if err != nil {
		return nil, err
	}
	perM, err := Resistance(size, a.Num("temperature"))
	if err != nil {
		return nil, err
	}
	drop := Drop(perM, a.Num("length"), a.Num("current"))
	if drop > a.Num("voltage") {
		return nil, fmt.Errorf("this cable cannot carry that current: it would lose %s of %s: %w",
			quantity.Volts.Text(drop, quantity.Metric), quantity.Volts.Text(a.Num("voltage"), quantity.Metric), figure.ErrRange)
	}
	trade, err := TradeDrop(size, a.Num("length"), a.Num("current"))
	return figure.Results{"drop_v": drop, "drop_percent": 100 * drop / a.Num("voltage"), "trade_drop_v": trade}, err
}
