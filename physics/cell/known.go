package cell

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// CellLimits is the figure of what is taken as true of a cell.
var CellLimits = &figure.Figure{
	Name:    "cell-limits",
	Answers: "Which voltages and temperatures may this cell not pass, and which are preferred?",
	Inputs:  []figure.Input{ofCell},
	Outputs: []figure.Output{
		output("max_v", quantity.Volts, "never charged above"), output("min_v", quantity.Volts, "never discharged below"),
		output("daily_high_v", quantity.Volts, "preferred top of daily use"), output("daily_low_v", quantity.Volts, "preferred bottom of daily use"),
		output("nominal_v", quantity.Volts, "nominal"),
		output("charge_min_c", quantity.Celsius, "no charge below"), output("charge_max_c", quantity.Celsius, "no charge above"),
		output("alarm_c", quantity.Celsius, "warn when as warm"), output("harm_c", quantity.Celsius, "disconnect at the latest"),
		output("sources", nil, "where each comes from"),
	},
	Equation: "looked up, not reckoned: the library's values, or the rig owner's where they are stricter",
	Source:   source.CellCurves,
	Range:    "one cell; each limit has its own source and standing",
	Compute: func(a figure.Args) (figure.Results, error) {
		c, err := Lookup(a.Text("cell"))
		if err != nil {
			return nil, err
		}
		return figure.Results{"max_v": c.MaxV.Value, "min_v": c.MinV.Value, "daily_high_v": c.DailyHighV.Value, "daily_low_v": c.DailyLowV.Value,
			"nominal_v": c.NominalV.Value, "charge_min_c": c.ChargeMinC.Value, "charge_max_c": c.ChargeMaxC.Value,
			"alarm_c": c.AlarmC.Value, "harm_c": c.HarmC.Value, "sources": c.limitSources()}, nil
	},
	Checks: []figure.Check{
		check(source.Mohtat2020, "nmc532", "max_v", 4.2, 1e-9, "cell=nmc532"),
		check(source.Prada2013, "iron-phosphate", "max_v", 3.6, 1e-9, "cell=lfp"),
		check(source.Owner, "an owner's stricter limit", "max_v", 4.15, 1e-9, "cell=nmc532 max=4.15"),
	},
}

// limitSources names, once each, where the limits come from and how firm that is.
func (c *Cell) limitSources() string {
	text := ""
	for _, x := range []struct {
		what  string
		known Known
	}{{"charge limit", c.MaxV}, {"discharge limit", c.MinV}, {"daily top", c.DailyHighV}, {"daily bottom", c.DailyLowV},
		{"charge in the cold", c.ChargeMinC}, {"charge in heat", c.ChargeMaxC}, {"warning", c.AlarmC}, {"latest disconnect", c.HarmC}} {
		if text != "" {
			text += "; "
		}
		text += x.what + ": " + cite(x.known.Source)
	}
	return text
}

// DischargeLimit is the figure of the current a bank gives for long.
var DischargeLimit = &figure.Figure{
	Name:    "discharge-limit",
	Answers: "How much current may a bank give for long at this cell temperature?",
	Inputs: []figure.Input{ofCell, input("capacity", quantity.AmpereHours, "of the bank"),
		with(input("temperature", quantity.Celsius, "of the cells"), "25 °C")},
	Outputs:  []figure.Output{output("current_a", quantity.Amperes, "most for long"), output("rate_source", nil, "where the cell's table comes from")},
	Equation: "current = rate × capacity; rate from the cell's table over temperature, straight lines between its points",
	Source:   source.CellCurves,
	Range:    "inside the cell's table of temperature; zero outside it",
	Compute: func(a figure.Args) (figure.Results, error) {
		c, err := Lookup(a.Text("cell"))
		if err != nil {
			return nil, err
		}
		return figure.Results{"current_a": c.DischargeRateAt(a.Num("temperature")) * a.Num("capacity"), "rate_source": cite(c.DischargeRate.Source)}, nil
	},
	Checks: []figure.Check{
		check(source.LFPSheet, "1C in the warm", "current_a", 100, 1e-9, "cell=lfp", "capacity=100 Ah", "temperature=25 °C"),
		check(source.LFPSheet, "0.2C in frost", "current_a", 20, 1e-9, "cell=lfp", "capacity=100 Ah", "temperature=-10 °C"),
	},
}

// AcidCharging is the figure of a lead-acid battery's charge voltages.
var AcidCharging = &figure.Figure{
	Name:    "acid-charging",
	Answers: "Which voltages does this lead-acid battery ask of a charger?",
	Inputs:  []figure.Input{ofCell, with(input("cells", quantity.Plain, "2 V cells in series"), "6")},
	Outputs: []figure.Output{
		output("absorption_v", quantity.Volts, "charge voltage at 25 °C"), output("float_v", quantity.Volts, "held full at 25 °C"),
		output("equalise_v", quantity.Volts, "equalising, 0 when sealed"), output("compensation_v_per_k", quantity.VoltsPerKelvin, "for each kelvin above 25 °C"),
		output("restart_v", quantity.Volts, "50 mV a cell below float"), output("sources", nil, "where they come from"),
	},
	Equation: "the cell's value × cells; restart = (float − 50 mV) × cells",
	Source:   source.AcidPages,
	Range:    "lead-acid at 25 °C; the battery's maker has the last word",
	Compute:  acidCharging,
	Checks: []figure.Check{
		check(source.Equation, "no cells, no voltage", "float_v", 0, 1e-12, "cell=lead-acid-flooded", "cells=0"),
	},
}

func acidCharging(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	if c.Acid == nil {
		return nil, fmt.Errorf("%s is no lead-acid cell: %w", c.Name, figure.ErrRange)
	}
	n := a.Num("cells")
	return figure.Results{"absorption_v": c.Acid.AbsorptionV.Value * n, "float_v": c.Acid.FloatV.Value * n, "equalise_v": c.Acid.EqualiseV.Value * n,
		"compensation_v_per_k": c.Acid.CompensationVPerK.Value * n, "restart_v": (c.Acid.FloatV.Value - 0.05) * n,
		"sources": "absorption: " + cite(c.Acid.AbsorptionV.Source) + "; float: " + cite(c.Acid.FloatV.Source)}, nil
}
