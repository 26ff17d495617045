package convert

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// ConverterDraw answers what a converter draws for what it gives.
var ConverterDraw = &figure.Figure{
	Name:    "converter-draw",
	Answers: "What does a converter or inverter draw from the bank for this load?",
	Inputs: []figure.Input{
		{Name: "load", Dim: quantity.Watts, Doc: "power it gives"},
		{Name: "idle", Dim: quantity.Watts, Doc: "drawn while on without load", Default: "0 W"},
		{Name: "linear", Dim: quantity.Fraction, Doc: "loss in proportion to the load", Default: "0 %"},
		{Name: "square", Dim: quantity.Plain, Doc: "loss with the square of the load, 1/W", Default: "0"},
	},
	Outputs: []figure.Output{
		{Key: "draw_w", Dim: quantity.Watts, Doc: "power it draws"},
		{Key: "efficiency_fraction", Dim: quantity.Fraction, Doc: "load over draw"},
	},
	Equation: "draw = load + idle + linear · load + square · load²",
	Source:   source.ConverterLoss,
	Range:    "while switched on; an idle draw of 40 W takes 960 Wh a day",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := notNegative(a, "load", "idle", "linear", "square"); err != nil {
			return nil, err
		}
		draw := Loss{Idle: a.Num("idle"), Share: a.Num("linear"), Square: a.Num("square")}.In(a.Num("load"))
		if draw <= 0 {
			return nil, fmt.Errorf("nothing is drawn: %w", figure.ErrRange)
		}
		return figure.Results{"draw_w": draw, "efficiency_fraction": a.Num("load") / draw}, nil
	},
	Checks: []figure.Check{
		check(source.Equation, "idle alone", "draw_w", 40, 0, "load=0 W", "idle=40 W"),
		check(source.Equation, "500 W with 20 W, 3 % and 2e-5/W", "draw_w", 540, 1e-9, "load=500 W", "idle=20 W", "linear=3 %", "square=2e-5"),
		check(source.Equation, "the same as efficiency", "efficiency_fraction", 500.0/540, 1e-12, "load=500 W", "idle=20 W", "linear=3 %", "square=2e-5"),
	},
}

// ControllerOutput answers what a solar charge controller passes on.
var ControllerOutput = &figure.Figure{
	Name:    "controller-output",
	Answers: "What does the solar charge controller pass on to the bank?",
	Inputs: []figure.Input{
		{Name: "array-power", Dim: quantity.Watts, Doc: "that the panels could give"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "of the bank"},
		{Name: "efficiency", Dim: quantity.Fraction, Doc: "output over input", Default: "96 %"},
		{Name: "current-limit", Dim: quantity.Amperes, Doc: "it gives at most; 0 for none", Default: "0 A"},
		{Name: "power-limit", Dim: quantity.Watts, Doc: "it takes from the panels at most; 0 for none", Default: "0 W"},
		{Name: "idle", Dim: quantity.Watts, Doc: "its own draw from the bank", Default: "0 W"},
	},
	Outputs: []figure.Output{
		{Key: "current_a", Dim: quantity.Amperes, Doc: "into the bank"},
		{Key: "lost_w", Dim: quantity.Watts, Doc: "turned into heat in the controller"},
		{Key: "unused_w", Dim: quantity.Watts, Doc: "that the panels could have given beyond its limits"},
	},
	Equation: "taken = min(array-power, power-limit, current-limit · voltage/efficiency); current = (taken · efficiency - idle)/voltage",
	Source:   source.ControllerRule,
	Range:    "controllers that find the panels' best voltage, above their starting voltage; the limit at the bank's lowest voltage is the tightest",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := errors.Join(positive(a, "voltage"), notNegative(a, "array-power", "current-limit", "power-limit", "idle"), efficient(a)); err != nil {
			return nil, err
		}
		c := Controller{Efficiency: a.Num("efficiency"), Idle: a.Num("idle"), Current: a.Num("current-limit"), Power: a.Num("power-limit")}
		got := c.Charge(a.Num("array-power"), a.Num("voltage"))
		return figure.Results{"current_a": got.Current, "lost_w": got.Lost, "unused_w": got.Unused}, nil
	},
	Checks: []figure.Check{
		check(source.Equation, "1000 W into 24 V without loss: 41.7 A", "current_a", 41.667, 1e-3, "array-power=1000 W", "voltage=24 V", "efficiency=100 %"),
		check(source.Equation, "1200 W, 96 %, 20 A at 50 V: 158.33 W unused", "unused_w", 158.3333, 1e-3, "array-power=1200 W", "voltage=50 V", "current-limit=20 A"),
		check(source.Equation, "the same: 20 A", "current_a", 20, 1e-9, "array-power=1200 W", "voltage=50 V", "current-limit=20 A"),
		check(source.Equation, "night", "current_a", -0.02, 1e-12, "array-power=0 W", "voltage=50 V", "idle=1 W"),
	},
}
