package cell

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// SeriesSpan is the figure of the voltages of a bank by cells in series.
var SeriesSpan = &figure.Figure{
	Name:    "series-span",
	Answers: "Which voltages does a bank of so many cells in series run between?",
	Inputs:  []figure.Input{ofCell, input("series", quantity.Plain, "groups in series")},
	Outputs: []figure.Output{
		output("low_v", quantity.Volts, "every cell at its lower limit"),
		output("nominal_v", quantity.Volts, "every cell at its nominal voltage"),
		output("high_v", quantity.Volts, "every cell at its upper limit"),
	},
	Equation: "low = series·Vmin, nominal = series·Vnominal, high = series·Vmax",
	Source:   source.CellPractice,
	Range:    "equal cells; limits of the cell as listed, the strictest of their sources",
	Compute:  seriesSpan,
	Checks: []figure.Check{
		check(source.CellPractice, "6 nickel-cobalt-aluminium, low", "low_v", 18.0, 1e-9, "cell=nca", "series=6"),
		check(source.CellPractice, "6 nickel-cobalt-aluminium, nominal", "nominal_v", 21.6, 1e-9, "cell=nca", "series=6"),
		check(source.CellPractice, "6 nickel-cobalt-aluminium, high", "high_v", 25.2, 1e-9, "cell=nca", "series=6"),
		check(source.Mohtat2020, "14 at 4.20 V", "high_v", 58.80, 1e-9, "cell=nmc532", "series=14"),
		check(source.Mohtat2020, "7 at 4.20 V", "high_v", 29.40, 1e-9, "cell=nmc532", "series=7"),
		check(source.Mohtat2020, "12 at 4.20 V", "high_v", 50.40, 1e-9, "cell=nmc532", "series=12"),
		check(source.Prada2013, "4 iron-phosphate at 3.60 V", "high_v", 14.40, 1e-9, "cell=lfp", "series=4"),
		check(source.Sulzer2019, "6 lead-acid at 1.75 V", "low_v", 10.50, 1e-9, "cell=lead-acid-flooded", "series=6"),
	},
}

func seriesSpan(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	n := a.Num("series")
	if err := whole("series", n); err != nil {
		return nil, err
	}
	return figure.Results{"low_v": n * c.MinV.Value, "nominal_v": n * c.NominalV.Value, "high_v": n * c.MaxV.Value}, nil
}

// ParallelLoss is the figure of what a group loses with some of its cells.
var ParallelLoss = &figure.Figure{
	Name:    "parallel-loss",
	Answers: "How much of a group's capacity goes when some of its parallel cells fail open?",
	Inputs: []figure.Input{input("cells", quantity.Plain, "cells in parallel in the group"),
		with(input("lost", quantity.Plain, "cells that fell out"), "1")},
	Outputs:  []figure.Output{output("loss_fraction", quantity.Fraction, "share of the group's capacity lost")},
	Equation: "loss = lost / cells",
	Source:   source.CellPractice,
	Range:    "equal cells; cells that fail short are another matter",
	Compute:  parallelLoss,
	Checks: []figure.Check{
		check(source.CellPractice, "one of 74 is 1.35 %", "loss_fraction", 0.0135, 5e-5, "cells=74", "lost=1"),
	},
}

func parallelLoss(a figure.Args) (figure.Results, error) {
	n, lost := a.Num("cells"), a.Num("lost")
	if err := whole("cells", n); err != nil {
		return nil, err
	}
	if err := within("lost", lost, 0, n, ""); err != nil {
		return nil, err
	}
	return figure.Results{"loss_fraction": lost / n}, nil
}

// WindowEnergy is the figure of the charge and energy between two voltages.
var WindowEnergy = &figure.Figure{
	Name:    "window-energy",
	Answers: "How much charge and energy lies between two cell voltages?",
	Inputs: []figure.Input{ofCell,
		input("low", quantity.Volts, "rest voltage of one cell at the bottom"),
		input("high", quantity.Volts, "rest voltage of one cell at the top"),
		input("series", quantity.Plain, "groups in series"),
		input("capacity", quantity.AmpereHours, "capacity of one group over the whole of the cell's curve"),
	},
	Outputs: []figure.Output{
		output("charge_ah", quantity.AmpereHours, "charge in the window"),
		output("energy_wh", quantity.WattHours, "energy in the window, before losses"),
	},
	Equation: "charge = capacity·(soc(high) − soc(low)); energy = series·capacity·∫U dsoc from soc(low) to soc(high)",
	Source:   source.CellCurves,
	Range:    "low below high; at rest voltage, about 25 °C: current takes its loss from this (about 5 % round trip at half the capacity per hour in open data)",
	Compute:  windowEnergy,
	Checks: []figure.Check{
		check(source.Kim2011, "mean rest voltage over all of the charge", "energy_wh", 3.6727, 0.0005, "cell=nca", "low=2.7 V", "high=4.2 V", "series=1", "capacity=1 Ah"),
		check(source.Chen2020, "mean rest voltage over all of the charge", "energy_wh", 3.7221, 0.0005, "cell=nmc811", "low=2.5 V", "high=4.2 V", "series=1", "capacity=1 Ah"),
		check(source.Mohtat2020, "mean rest voltage over all of the charge", "energy_wh", 3.7561, 0.0005, "cell=nmc532", "low=2.8 V", "high=4.2 V", "series=1", "capacity=1 Ah"),
		check(source.Ecker2015, "mean rest voltage over all of the charge", "energy_wh", 3.7671, 0.0005, "cell=nco-pouch", "low=2.5 V", "high=4.2 V", "series=1", "capacity=1 Ah"),
		check(source.Prada2013, "mean rest voltage over all of the charge", "energy_wh", 3.1953, 0.0005, "cell=lfp-prada", "low=2.0 V", "high=3.6 V", "series=1", "capacity=1 Ah"),
		check(source.Equation, "nmc532 from 4.000 to 4.050 V, 100 Ah", "charge_ah", 4.69, 0.05, "cell=nmc532", "low=4.000 V", "high=4.050 V", "series=1", "capacity=100 Ah"),
		check(source.Equation, "nmc532 from 3.700 to 3.750 V, 100 Ah", "charge_ah", 8.84, 0.05, "cell=nmc532", "low=3.700 V", "high=3.750 V", "series=1", "capacity=100 Ah"),
	},
}

func windowEnergy(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	low, high, n, capacity := a.Num("low"), a.Num("high"), a.Num("series"), a.Num("capacity")
	if err := whole("series", n); err != nil {
		return nil, err
	}
	if !(low < high && capacity > 0) {
		return nil, fmt.Errorf("low %s must be below high %s and capacity above zero: %w", text(low, "V"), text(high, "V"), figure.ErrRange)
	}
	charge, energy := c.Window(low, high)
	return figure.Results{"charge_ah": charge * capacity, "energy_wh": n * capacity * energy}, nil
}

// Window returns the charge (fraction of capacity) and the energy (Wh per Ah of
// capacity) of one cell between two rest voltages, V.
func (c *Cell) Window(lowV, highV float64) (charge, energy float64) {
	from, to := c.Curve.SoC(lowV), c.Curve.SoC(highV)
	return to - from, c.Curve.Energy(from, to)
}

// ChargeLimit is the figure of the charge current allowed at a temperature.
var ChargeLimit = &figure.Figure{
	Name:    "charge-limit",
	Answers: "How much charge current may a bank take at this cell temperature?",
	Inputs: []figure.Input{ofCell, input("capacity", quantity.AmpereHours, "capacity of one group"),
		input("temperature", quantity.Celsius, "temperature of the coldest and of the hottest cell")},
	Outputs: []figure.Output{
		output("current_a", quantity.Amperes, "highest charge current, zero when charging is not allowed"),
		output("rate_per_h", quantity.PerHour, "the same over capacity"),
		output("basis", nil, "where the cell's table comes from"),
	},
	Equation: "current = capacity·rate(temperature), rate by a table with straight lines between its points",
	Source:   source.LFPSheet,
	Range:    "lithium: zero at and below 0 °C and from 50 °C; the table is one iron-phosphate sheet's, taken for nickel cells as habit",
	Compute:  chargeLimit,
	Checks: []figure.Check{
		check(source.LFPSheet, "prohibited below 0 °C", "current_a", 0, 0, "cell=lfp", "capacity=100 Ah", "temperature=-0.1 °C"),
		check(source.LFPSheet, "0.2C up to 15 °C", "current_a", 20, 1e-9, "cell=lfp", "capacity=100 Ah", "temperature=10 °C"),
		check(source.LFPSheet, "0.5C up to 45 °C", "current_a", 50, 1e-9, "cell=lfp", "capacity=100 Ah", "temperature=45 °C"),
		check(source.DeviceCharging, "stopped above 50 °C", "current_a", 0, 0, "cell=nmc532", "capacity=100 Ah", "temperature=50.1 °C"),
	},
}

func chargeLimit(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	if err := within("temperature", a.Num("temperature"), -90, 200, "°C"); err != nil {
		return nil, err
	}
	rate := c.ChargeRate(a.Num("temperature"))
	return figure.Results{"current_a": rate * a.Num("capacity"), "rate_per_h": rate, "basis": cite(c.ChargeRates.Source)}, nil
}
