package convert

import (
	"errors"
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// InverterPower answers what an inverter with published coefficients gives.
var InverterPower = &figure.Figure{
	Name:    "inverter-power",
	Answers: "What does this inverter give from dc power at this voltage?",
	Inputs: []figure.Input{
		dcPower,
		{Name: "voltage", Dim: quantity.Volts, Doc: "of the dc side"},
		{Name: "paco", Dim: quantity.Watts, Doc: "rated ac power"},
		{Name: "pdco", Dim: quantity.Watts, Doc: "dc power at which it gives that"},
		{Name: "vdco", Dim: quantity.Volts, Doc: "dc voltage at which it gives that"},
		{Name: "pso", Dim: quantity.Watts, Doc: "dc power at which it starts"},
		{Name: "c0", Dim: quantity.Plain, Doc: "curve of ac over dc power, 1/W", Default: "0"},
		{Name: "c1", Dim: quantity.Plain, Doc: "change of pdco with voltage, 1/V", Default: "0"},
		{Name: "c2", Dim: quantity.Plain, Doc: "change of pso with voltage, 1/V", Default: "0"},
		{Name: "c3", Dim: quantity.Plain, Doc: "change of c0 with voltage, 1/V", Default: "0"},
		{Name: "pnt", Dim: quantity.Watts, Doc: "ac power drawn while off", Default: "0 W"},
	},
	Outputs: []figure.Output{
		{Key: "power_w", Dim: quantity.Watts, Doc: "ac power given, negative while off"},
		{Key: "efficiency_fraction", Dim: quantity.Fraction, Doc: "ac over dc; 0 while off"},
	},
	Equation: "A = pdco·(1 + c1·(V - vdco)), B = pso·(1 + c2·(V - vdco)), C = c0·(1 + c3·(V - vdco)); " +
		"power = (paco/(A - B) - C·(A - B))·(dc - B) + C·(dc - B)², at most paco; -pnt while dc < pso",
	Source:  source.King2007,
	Range:   "made for inverters on a grid; on a battery its shape holds, its coefficients must be the machine's own",
	Compute: computeInverter,
	Checks: []figure.Check{
		check(source.King2007, "published test of a 250 W inverter", "power_w", 132.0043, 1e-3, "dc-power=137.5 W", "voltage=25 V", "paco=250 W", "pdco=259.5220505 W",
			"vdco=40.24260317 V", "pso=1.771614224 W", "c0=-2.48e-5", "c1=-9.01e-5", "c2=6.69e-4", "c3=-0.0189"),
		check(source.King2007, "published test of a 240 W inverter", "power_w", 132.545914746, 1e-6, small("dc-power=137.5 W", "voltage=25 V")...),
		check(source.King2007, "the same beyond its rating", "power_w", 240, 0, small("dc-power=550 W", "voltage=50 V")...),
		check(source.King2007, "the same off", "power_w", -0.043, 0, small("dc-power=0 W", "voltage=50 V")...),
	},
}

func small(in ...string) []string {
	return append(in, "paco=240 W", "pdco=250.5311318 W", "vdco=32.06160667 V", "pso=1.12048857 W", "c0=-5.76e-5", "c1=-6.24e-4",
		"c2=8.09e-2", "c3=-0.111781106", "pnt=0.043 W")
}

func computeInverter(a figure.Args) (figure.Results, error) {
	if err := errors.Join(positive(a, "voltage", "paco", "pdco", "vdco"), notNegative(a, "dc-power", "pso", "pnt")); err != nil {
		return nil, err
	}
	v := Inverter{RatedAC: a.Num("paco"), RatedDC: a.Num("pdco"), RatedV: a.Num("vdco"), Start: a.Num("pso"),
		C0: a.Num("c0"), C1: a.Num("c1"), C2: a.Num("c2"), C3: a.Num("c3"), Night: a.Num("pnt")}
	dc := a.Num("dc-power")
	ac := v.AC(a.Num("voltage"), dc)
	share := 0.0
	if dc > 0 {
		share = max(0, ac/dc)
	}
	return figure.Results{"power_w": ac, "efficiency_fraction": share}, nil
}

// InverterPartLoad answers the same with the nominal efficiency alone.
var InverterPartLoad = &figure.Figure{
	Name:    "inverter-part-load",
	Answers: "What does an inverter of this nominal efficiency give at part load?",
	Inputs: []figure.Input{dcPower,
		{Name: "rated", Dim: quantity.Watts, Doc: "rated dc power"},
		{Name: "efficiency", Dim: quantity.Fraction, Doc: "nominal", Default: "96 %"}},
	Outputs:  []figure.Output{{Key: "power_w", Dim: quantity.Watts, Doc: "ac power given"}},
	Equation: "power = dc · efficiency/0.9637 · (-0.0162·ζ - 0.0059/ζ + 0.9858), ζ = dc/rated, at most efficiency · rated",
	Source:   source.Dobos2014,
	Range:    "one curve for all machines; below a twentieth of the rating the machine's own idle draw decides",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := errors.Join(positive(a, "rated"), notNegative(a, "dc-power"), efficient(a)); err != nil {
			return nil, err
		}
		return figure.Results{"power_w": PartLoad(a.Num("dc-power"), a.Num("rated"), a.Num("efficiency"))}, nil
	},
	Checks: []figure.Check{
		check(source.Dobos2014, "published test, 90 W of 100 W", "power_w", 85.58556604752516, 1e-9, "dc-power=90 W", "rated=100 W", "efficiency=95 %"),
		check(source.Dobos2014, "published test, half load", "power_w", 47.60843624, 1e-6, "dc-power=50 W", "rated=100 W", "efficiency=95 %"),
		check(source.Dobos2014, "published test, full load", "power_w", 95, 1e-6, "dc-power=100 W", "rated=100 W", "efficiency=95 %"),
	},
}

// WeightedEfficiency answers what single efficiency stands for a machine's day.
var WeightedEfficiency = &figure.Figure{
	Name:    "weighted-efficiency",
	Answers: "What efficiency stands for an inverter that works at many loads?",
	Inputs: []figure.Input{
		{Name: "weights", Doc: "california (loads 10, 20, 30, 50, 75, 100 %) or european (5, 10, 20, 30, 50, 100 %)", Default: "european", Example: "california"},
		{Name: "efficiencies", Doc: "at the six loads, rising", Example: "0.80,0.88,0.92,0.93,0.93,0.91"},
	},
	Outputs:  []figure.Output{{Key: "efficiency_fraction", Dim: quantity.Fraction, Doc: "mean"}},
	Equation: "efficiency = Σ weight · efficiency; California 0.04, 0.05, 0.12, 0.21, 0.53, 0.05; European 0.03, 0.06, 0.13, 0.10, 0.48, 0.20",
	Source:   source.InverterWeights,
	Range:    "inverters on a grid; one in a vehicle mostly works below a fifth of its rating and fares worse",
	Compute:  computeWeighted,
	Checks: []figure.Check{
		check(source.InverterWeights, "the European weights add up", "efficiency_fraction", 1, 1e-12, "efficiencies=1,1,1,1,1,1"),
		check(source.InverterWeights, "the Californian weights add up", "efficiency_fraction", 1, 1e-12, "weights=california", "efficiencies=1,1,1,1,1,1"),
		check(source.InverterWeights, "three quarters of the load, California", "efficiency_fraction", 0.53, 1e-12, "weights=california", "efficiencies=0,0,0,0,1,0"),
	},
}

func computeWeighted(a figure.Args) (figure.Results, error) {
	weights, ok := map[string][]Weight{"california": California, "european": European}[a.Text("weights")]
	if !ok {
		return nil, fmt.Errorf("weights %q: expected california or european", a.Text("weights"))
	}
	list, err := a.List("efficiencies", quantity.Fraction)
	if err != nil {
		return nil, err
	}
	if len(list) != len(weights) {
		return nil, fmt.Errorf("efficiencies: got %d, expected %d, one for each load", len(list), len(weights))
	}
	byLoad := map[float64]float64{}
	for k, w := range weights {
		byLoad[w.Load] = list[k]
	}
	return figure.Results{"efficiency_fraction": Weighted(weights, func(load float64) float64 { return byLoad[load] })}, nil
}
