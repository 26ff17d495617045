package panel

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// PanelColdVoltage answers how high a string's voltage rises on a cold morning.
var PanelColdVoltage = &figure.Figure{
	Name:    "panel-cold-voltage",
	Answers: "How high does the voltage of panels in series rise in the greatest cold?",
	Inputs: []figure.Input{
		{Name: "voc", Dim: quantity.Volts, Doc: "open-circuit voltage of one panel, on its data sheet"},
		{Name: "series", Dim: quantity.Plain, Doc: "panels in series", Default: "1"},
		{Name: "coldest", Dim: quantity.Celsius, Doc: "lowest temperature of the air of any place the panels will ever be"},
		{Name: "method", Doc: "table (crystalline silicon) or coefficient (the maker's)", Default: "table", Example: "coefficient"},
		{Name: "temperature-coefficient", Dim: quantity.PerKelvin, Doc: "of the open-circuit voltage, for method=coefficient; the default is the steepest that is usual", Default: "-0.36 %/K"},
	},
	Outputs: []figure.Output{
		{Key: "voltage_v", Dim: quantity.Volts, Doc: "of the string without load: what a controller must bear"},
		{Key: "factor", Dim: quantity.Plain, Doc: "over the voltage at 25 °C"},
	},
	Equation: "coefficient: voltage = series · voc · (1 + temperature-coefficient · (coldest - 25 °C)); table: voltage = series · voc · factor of table 690.7(A)",
	Source:   source.NEC6907,
	Range:    "table -40 to 24 °C, between its rows the colder one; at sunrise cells are as cold as the air; usual coefficients: heterojunction -0.23 to -0.26, mono -0.27 to -0.33, poly -0.33 to -0.36 %/K",
	Compute:  computeCold,
	Checks: []figure.Check{
		check(source.NEC6907, "printed: 49.5 V, -0.27 %/K, -10 °C", "voltage_v", 54.18, 0.01,
			"voc=49.5 V", "coldest=-10 °C", "method=coefficient", "temperature-coefficient=-0.27 %/K"),
		check(source.NEC6907, "printed: the same by table, 1.14", "voltage_v", 56.43, 0.01, "voc=49.5 V", "coldest=-10 °C"),
		check(source.Equation, "22.5 V, -0.28 %/K, -26 °C", "voltage_v", 25.713, 0.001,
			"voc=22.5 V", "coldest=-26 °C", "method=coefficient", "temperature-coefficient=-0.28 %/K"),
		check(source.Equation, "three of 22.5 V at -20 °C, 1.18: within 100 V", "voltage_v", 79.65, 0.01, "voc=22.5 V", "series=3", "coldest=-20 °C"),
		check(source.Equation, "four of them: above 100 V", "voltage_v", 106.2, 0.01, "voc=22.5 V", "series=4", "coldest=-20 °C"),
		check(source.NEC6907, "table, -5 °C", "factor", 1.12, 0, "voc=1 V", "coldest=-5 °C"),
		check(source.NEC6907, "table, -6 °C", "factor", 1.14, 0, "voc=1 V", "coldest=-6 °C"),
		check(source.NEC6907, "table, -36 °C", "factor", 1.25, 0, "voc=1 V", "coldest=-36 °C"),
		check(source.NEC6907, "table, +22 °C", "factor", 1.02, 0, "voc=1 V", "coldest=22 °C"),
		check(source.NEC6907, "table, -20 °C and not +20 °C", "factor", 1.18, 0, "voc=1 V", "coldest=-20 °C"),
	},
}

func computeCold(a figure.Args) (figure.Results, error) {
	if err := inside(a, limit{"voc", 0.1, 2000}, limit{"series", 1, 1000}, limit{"coldest", -90, 60}, limit{"temperature-coefficient", -0.02, 0}); err != nil {
		return nil, err
	}
	voc, series := a.Num("voc"), a.Num("series")
	switch a.Text("method") {
	case "table":
		factor, err := ColdFactor(a.Num("coldest"))
		return figure.Results{"voltage_v": voc * series * factor, "factor": factor}, err
	case "coefficient":
		volts := ColdVoltage(voc, series, a.Num("coldest"), a.Num("temperature-coefficient"))
		return figure.Results{"voltage_v": volts, "factor": volts / voc / series}, nil
	}
	return nil, fmt.Errorf("method %q: expected table or coefficient", a.Text("method"))
}
