package cell

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// ResistanceAt is the figure that carries a resistance to another temperature.
var ResistanceAt = &figure.Figure{
	Name:    "resistance-at",
	Answers: "What is a resistance known at 25 °C at another cell temperature?",
	Inputs: []figure.Input{input("resistance", quantity.Ohms, "at 25 °C"), input("temperature", quantity.Celsius, "cell temperature"),
		ofCell},
	Outputs: []figure.Output{
		output("resistance_ohm", quantity.Ohms, "at that temperature"),
		output("factor", quantity.Plain, "over that at 25 °C"),
	},
	Equation: "resistance·exp[Ea/R·(1/T − 1/298.15)], T in kelvin, R = 8.31446 J/(mol·K); Ea about 21 kJ/mol below 25 °C, 4 kJ/mol above, for lithium",
	Source:   source.PouchDerived,
	Range:    "measured from 10 to 40 °C, carried on to −40..80 °C; expect more below 0 °C",
	Compute:  resistanceAt,
	Checks: []figure.Check{
		check(source.PouchTest, "10 s, mean of 25 to 95 % charge", "resistance_ohm", 3.229e-3, 0.05e-3, "resistance=2.048 mΩ", "temperature=10 °C", "cell=lmo-blend-pouch"),
		check(source.PouchTest, "10 s, mean of 25 to 95 % charge", "resistance_ohm", 1.919e-3, 0.05e-3, "resistance=2.048 mΩ", "temperature=40 °C", "cell=lmo-blend-pouch"),
	},
}

func resistanceAt(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	if err := within("temperature", a.Num("temperature"), -40, 80, "°C"); err != nil {
		return nil, err
	}
	factor := c.ResistanceFactor(a.Num("temperature"))
	return figure.Results{"resistance_ohm": a.Num("resistance") * factor, "factor": factor}, nil
}

// ArrheniusFactor is the figure of one activation energy.
var ArrheniusFactor = &figure.Figure{
	Name:     "arrhenius-factor",
	Answers:  "By what factor does a resistance grow with cold, for a given activation energy?",
	Inputs:   []figure.Input{input("activation", quantity.Plain, "activation energy, kJ/mol"), input("temperature", quantity.Celsius, "cell temperature")},
	Outputs:  []figure.Output{output("factor", quantity.Plain, "over the value at 25 °C")},
	Equation: "exp[Ea/R·(1/T − 1/298.15)], T in kelvin, R = 8.31446 J/(mol·K)",
	Source:   source.Equation,
	Range:    "activation 0 to 200 kJ/mol, −60 to 100 °C",
	Compute:  arrheniusFactor,
	Checks: []figure.Check{
		check(source.Equation, "20 kJ/mol at 0 °C", "factor", 2.093, 0.002, "activation=20", "temperature=0 °C"),
		check(source.Equation, "20 kJ/mol at −20 °C", "factor", 4.196, 0.002, "activation=20", "temperature=-20 °C"),
		check(source.Equation, "20 kJ/mol at 45 °C", "factor", 0.602, 0.001, "activation=20", "temperature=45 °C"),
		check(source.Equation, "30 kJ/mol at −10 °C", "factor", 5.001, 0.002, "activation=30", "temperature=-10 °C"),
		check(source.Equation, "30 kJ/mol at 40 °C", "factor", 0.560, 0.001, "activation=30", "temperature=40 °C"),
		check(source.Equation, "40 kJ/mol at 10 °C", "factor", 2.351, 0.002, "activation=40", "temperature=10 °C"),
		check(source.Equation, "40 kJ/mol at −20 °C", "factor", 17.61, 0.01, "activation=40", "temperature=-20 °C"),
	},
}

func arrheniusFactor(a figure.Args) (figure.Results, error) {
	ea, temp := a.Num("activation"), a.Num("temperature")
	if err := within("activation", ea, 0, 200, "kJ/mol"); err != nil {
		return nil, err
	}
	if err := within("temperature", temp, -60, 100, "°C"); err != nil {
		return nil, err
	}
	return figure.Results{"factor": Arrhenius(ea*1e3, temp)}, nil
}

// CellHeat is the figure of the heat a cell makes.
var CellHeat = &figure.Figure{
	Name:    "cell-heat",
	Answers: "How much heat does a cell make at this current?",
	Inputs: []figure.Input{
		input("current", quantity.Amperes, "positive on discharge"),
		input("resistance", quantity.Ohms, "of the cell at its temperature"),
		with(input("temperature", quantity.Celsius, "cell temperature"), "25 °C"),
		with(input("entropy", quantity.VoltsPerKelvin, "change of rest voltage with temperature, dU/dT"), "0 mV/K"),
	},
	Outputs: []figure.Output{
		output("heat_w", quantity.Watts, "all heat"),
		output("ohmic_w", quantity.Watts, "of resistance"),
		output("reversible_w", quantity.Watts, "of reaction; negative cools"),
	},
	Equation: "heat = I²·R − I·T·dU/dT, T in kelvin",
	Source:   source.Bernardi,
	Range:    "one resistance, even temperature in the cell; joints add their own I²·R",
	Compute:  cellHeat,
	Checks: []figure.Check{
		check(source.Equation, "50 A discharge: ohmic", "ohmic_w", 5.000, 1e-9, "current=50 A", "resistance=2 mΩ", "temperature=25 °C", "entropy=0.1 mV/K"),
		check(source.Equation, "50 A discharge: reversible", "reversible_w", -1.491, 0.0005, "current=50 A", "resistance=2 mΩ", "temperature=25 °C", "entropy=0.1 mV/K"),
		check(source.Equation, "50 A discharge", "heat_w", 3.509, 0.0005, "current=50 A", "resistance=2 mΩ", "temperature=25 °C", "entropy=0.1 mV/K"),
		check(source.Equation, "50 A charge", "heat_w", 6.491, 0.0005, "current=-50 A", "resistance=2 mΩ", "temperature=25 °C", "entropy=0.1 mV/K"),
	},
}

func cellHeat(a figure.Args) (figure.Results, error) {
	i, r := a.Num("current"), a.Num("resistance")
	if r < 0 {
		return nil, fmt.Errorf("resistance %s is negative: %w", text(r, "Ω"), figure.ErrRange)
	}
	ohmic, reversible := i*i*r, -i*(a.Num("temperature")+zeroC)*a.Num("entropy")
	return figure.Results{"heat_w": ohmic + reversible, "ohmic_w": ohmic, "reversible_w": reversible}, nil
}

// WarmUp is the figure of the time a heater takes.
var WarmUp = &figure.Figure{
	Name:    "warm-up",
	Answers: "How long does a heater take to bring a bank to a temperature?",
	Inputs: []figure.Input{
		input("mass", quantity.Kilograms, "of the bank"),
		with(input("specific-heat", quantity.JoulesPerKgK, "of the bank"), "950 J/kg/K"),
		input("power", quantity.Watts, "of the heater"),
		with(input("loss", quantity.WattsPerKelvin, "heat lost per kelvin above the surroundings"), "0 W/K"),
		input("from", quantity.Celsius, "temperature of the bank at the start"),
		input("to", quantity.Celsius, "temperature wanted"),
		input("ambient", quantity.Celsius, "temperature around the case"),
	},
	Outputs: []figure.Output{
		output("time_h", nil, "hours it takes"),
		output("time_s", quantity.Seconds, "the same"),
	},
	Equation: "m·cp·dT/dt = P − h·(T − Tamb): t = −(m·cp/h)·ln[1 − h·(T2 − T1)/(P + h·(Tamb − T1))]; without loss t = m·cp·(T2 − T1)/P",
	Source:   source.Equation,
	Range:    "even temperature in the bank; refused when the heater never gets there: it reaches Tamb + P/h at most",
	Compute:  warmUp,
	Checks: []figure.Check{
		check(source.Equation, "25 kg, 60 W, 1.5 W/K, −5 to 5 °C", "time_s", 4794.7, 4.8,
			"mass=25 kg", "specific-heat=1000 J/kg/K", "power=60 W", "loss=1.5 W/K", "from=-5 °C", "to=5 °C", "ambient=-5 °C"),
		check(source.Equation, "the same in hours", "time_h", 1.332, 0.0013,
			"mass=25 kg", "specific-heat=1000 J/kg/K", "power=60 W", "loss=1.5 W/K", "from=-5 °C", "to=5 °C", "ambient=-5 °C"),
		check(source.Equation, "without loss", "time_s", 4166.7, 4.2,
			"mass=25 kg", "specific-heat=1000 J/kg/K", "power=60 W", "from=-5 °C", "to=5 °C", "ambient=-5 °C"),
	},
}

func warmUp(a figure.Args) (figure.Results, error) {
	heat, h := a.Num("mass")*a.Num("specific-heat"), a.Num("loss")
	from, to := a.Num("from"), a.Num("to")
	if !(heat > 0 && h >= 0) {
		return nil, fmt.Errorf("mass and specific heat must be above zero and loss not negative: %w", figure.ErrRange)
	}
	seconds := WarmUpTime(heat, a.Num("power"), h, from, to, a.Num("ambient"))
	if math.IsInf(seconds, 1) {
		most := a.Num("ambient") + a.Num("power")/h
		return nil, fmt.Errorf("it never reaches %s; %s of heat leads to %s at most: %w",
			text(to, "°C"), text(a.Num("power"), "W"), text(most, "°C"), figure.ErrRange)
	}
	return figure.Results{"time_h": seconds / 3600, "time_s": seconds}, nil
}

// WarmUpTime returns the seconds in which power (W) brings a heat capacity (J/K)
// that loses loss (W/K) to surroundings at ambientC from one temperature to
// another: zero when it is there already, infinite when it never gets there.
func WarmUpTime(heatCapacity, power, loss, fromC, toC, ambientC float64) float64 {
	if toC <= fromC {
		return 0
	}
	if power-loss*(toC-ambientC) <= 0 {
		return math.Inf(1)
	}
	if loss == 0 {
		return heatCapacity * (toC - fromC) / power
	}
	return -heatCapacity / loss * math.Log1p(-loss*(toC-fromC)/(power+loss*(ambientC-fromC)))
}
