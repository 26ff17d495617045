package cell

import (
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// CompensatedVoltage is the figure of temperature compensation.
var CompensatedVoltage = &figure.Figure{
	Name:    "compensated-voltage",
	Answers: "To what does a charger with temperature compensation move its voltage?",
	Inputs: []figure.Input{
		input("voltage", quantity.Volts, "set at the reference temperature"),
		input("slope", quantity.VoltsPerKelvin, "compensation, of the same number of cells as the voltage"),
		input("temperature", quantity.Celsius, "where the sensor is"),
		with(input("reference", quantity.Celsius, "temperature the setting holds at"), "25 °C"),
	},
	Outputs:  []figure.Output{output("voltage_v", quantity.Volts, "what the charger aims at")},
	Equation: "voltage + slope·(temperature − reference)",
	Source:   source.AcidPages,
	Range:    "lead-acid, −3 to −5 mV/K per cell; lithium needs none: it must be off",
	Compute: func(a figure.Args) (figure.Results, error) {
		return figure.Results{"voltage_v": a.Num("voltage") + a.Num("slope")*(a.Num("temperature")-a.Num("reference"))}, nil
	},
	Checks: []figure.Check{
		check(source.AcidPages, "one cell, warm", "voltage_v", 2.27, 1e-9, "voltage=2.30 V", "slope=-3 mV/K", "temperature=35 °C"),
		check(source.AcidPages, "one cell, cold", "voltage_v", 2.33, 1e-9, "voltage=2.30 V", "slope=-3 mV/K", "temperature=15 °C"),
		check(source.AcidPages, "six cells, −5 mV/K each", "voltage_v", 13.25, 1e-9, "voltage=13.40 V", "slope=-30 mV/K", "temperature=30 °C"),
		check(source.Equation, "twelve cells, −5 mV/K each, at 0 °C", "voltage_v", 30.3, 1e-9, "voltage=28.8 V", "slope=-60 mV/K", "temperature=0 °C"),
		check(source.Equation, "twenty-four cells, −5 mV/K each, at 0 °C", "voltage_v", 60.6, 1e-9, "voltage=57.6 V", "slope=-120 mV/K", "temperature=0 °C"),
	},
}

// AcidRest is the figure of lead-acid rest voltage from the hydrometer.
var AcidRest = &figure.Figure{
	Name:    "acid-rest",
	Answers: "What does a lead-acid cell show at rest at this specific gravity of its acid?",
	Inputs: []figure.Input{input("gravity", quantity.Plain, "specific gravity at 25 °C, such as 1.265"),
		with(input("cells", quantity.Plain, "cells in series"), "1")},
	Outputs: []figure.Output{
		output("voltage_v", quantity.Volts, "by the rule"),
		output("bode_v", quantity.Volts, "by the electrode potentials, as a second opinion"),
	},
	Equation: "voltage = cells·(gravity + 0.845); second: molality m from gravity, L = log10 m, " +
		"Upos = 1.628 + 0.074L + 0.033L² + 0.043L³ + 0.022L⁴, Uneg = −0.294 − 0.074L − 0.030L² − 0.031L³ − 0.012L⁴, cells·(Upos − Uneg)",
	Source:  source.Bode1977,
	Range:   "gravity 1.05 to 1.32, 25 °C; the two agree within 20 mV for six cells between 1.10 and 1.28",
	Compute: acidRest,
	Checks:  acidChecks(),
}

func acidRest(a figure.Args) (figure.Results, error) {
	gravity, cells := a.Num("gravity"), a.Num("cells")
	if err := within("gravity", gravity, 1.05, 1.32, ""); err != nil {
		return nil, err
	}
	if err := whole("cells", cells); err != nil {
		return nil, err
	}
	return figure.Results{"voltage_v": cells * (gravity + 0.845), "bode_v": cells * bode(gravity)}, nil
}

// bode is the rest voltage of one cell by the electrode potentials of Bode 1977
// against acid molality.
func bode(gravity float64) float64 {
	l := math.Log10(molality(gravity))
	positive := 1.628 + l*(0.074+l*(0.033+l*(0.043+l*0.022)))
	negative := -0.294 - l*(0.074+l*(0.030+l*(0.031+l*0.012)))
	return positive - negative
}

// molality of sulphuric acid, mol/kg, from its specific gravity: density
// ρ = Mw(1 − c·Ve)/Vw + Me·c solved for c, then m = c·Vw/((1 − c·Ve)·Mw), with
// partial molar volumes and molar masses of the Sulzer 2019 set.
func molality(gravity float64) float64 {
	const vw, ve = 1.75e-5, 4.5e-5 // m³/mol
	const mw, me = 0.01801, 0.098  // kg/mol
	c := (gravity*1000 - mw/vw) / (me - mw*ve/vw)
	return c * vw / ((1 - c*ve) * mw)
}

func acidChecks() []figure.Check {
	rows := []struct {
		gravity           string
		bode, bode6, rule float64
	}{
		{"1.100", 1.9463, 11.678, 11.670}, {"1.150", 1.9980, 11.988, 11.970}, {"1.200", 2.0463, 12.278, 12.270},
		{"1.250", 2.0944, 12.566, 12.570}, {"1.265", 2.1090, 12.654, 12.660}, {"1.277", 2.1208, 12.725, 12.732},
		{"1.280", 2.1237, 12.742, 12.750},
	}
	var checks []figure.Check
	for _, r := range rows {
		checks = append(checks,
			check(source.AcidGravity, "rule, six cells at "+r.gravity, "voltage_v", r.rule, 1e-9, "gravity="+r.gravity, "cells=6"),
			check(source.Bode1977, "potentials, six cells at "+r.gravity, "bode_v", r.bode6, 0.001, "gravity="+r.gravity, "cells=6"),
			check(source.Bode1977, "potentials, one cell at "+r.gravity, "bode_v", r.bode, 1e-4, "gravity="+r.gravity))
	}
	return checks
}
