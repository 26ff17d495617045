package panel

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// margin is the share by which conductors and inputs exceed the short-circuit
// current of panels: brighter sun than at their test (NFPA 70, 690.8).
const margin = 1.25

// PanelCurrent answers what current panels in parallel ask their cable to carry.
var PanelCurrent = &figure.Figure{
	Name:    "panel-current",
	Answers: "What current must cable, fuse and input of these panels bear?",
	Inputs: []figure.Input{
		{Name: "isc", Dim: quantity.Amperes, Doc: "short-circuit current of one string, on the data sheet"},
		{Name: "parallel", Dim: quantity.Plain, Doc: "such strings in parallel", Default: "1"},
	},
	Outputs: []figure.Output{
		{Key: "current_a", Dim: quantity.Amperes, Doc: "largest current: what the charger's input must take"},
		{Key: "conductor_a", Dim: quantity.Amperes, Doc: "least rating of conductor and fuse"},
		{Key: "others_a", Dim: quantity.Amperes, Doc: "what the other strings drive into a shorted one"},
	},
	Equation: "current = 1.25 · isc · parallel; conductor = 1.25 · current; others = 1.25 · isc · (parallel - 1)",
	Source:   source.NEC6908,
	Range:    "each string needs a fuse when others exceeds the series fuse on the panel's label",
	Compute:  computeCurrent,
	Checks: []figure.Check{
		check(source.NEC6908, "published: 9.0 A", "current_a", 11.25, 0.01, "isc=9 A"),
		check(source.NEC6908, "the second step: 14.06 A, so a fuse of 15 A", "conductor_a", 14.06, 0.01, "isc=9 A"),
		check(source.Equation, "three strings of 9.8 A: within 40 A", "current_a", 36.75, 0.001, "isc=9.8 A", "parallel=3"),
		check(source.ControllerSizing, "published: three of 5.5 A; the text rounds down to 20 A", "current_a", 20.625, 0.001, "isc=5.5 A", "parallel=3"),
	},
}

func computeCurrent(a figure.Args) (figure.Results, error) {
	if err := inside(a, limit{"isc", 0, 1000}, limit{"parallel", 1, 1000}); err != nil {
		return nil, err
	}
	one := margin * a.Num("isc")
	all := one * a.Num("parallel")
	return figure.Results{"current_a": all, "conductor_a": margin * all, "others_a": all - one}, nil
}

// PanelsInSeries answers how many panels in series an input bears.
var PanelsInSeries = &figure.Figure{
	Name:    "panels-in-series",
	Answers: "How many panels in series does an input bear in the greatest cold?",
	Inputs: append([]figure.Input{{Name: "limit", Dim: quantity.Volts, Doc: "highest voltage the input bears"}},
		without(PanelColdVoltage.Inputs, "series")...),
	Outputs: []figure.Output{
		{Key: "panels", Dim: quantity.Plain, Doc: "at most"},
		{Key: "voltage_v", Dim: quantity.Volts, Doc: "of that many in the cold"},
	},
	Equation: "panels = limit / voltage of one by the figure panel-cold-voltage, rounded down",
	Source:   source.NEC6907,
	Range:    "as the figure panel-cold-voltage",
	Compute:  computeSeries,
	Checks: []figure.Check{
		check(source.NEC6907, "published: 49.5 V, -0.27 %/K, -10 °C, 600 V", "panels", 11, 0,
			"limit=600 V", "voc=49.5 V", "coldest=-10 °C", "method=coefficient", "temperature-coefficient=-0.27 %/K"),
		check(source.NEC6907, "printed: 596 V", "voltage_v", 596, 0.5,
			"limit=600 V", "voc=49.5 V", "coldest=-10 °C", "method=coefficient", "temperature-coefficient=-0.27 %/K"),
		check(source.NEC6907, "published: the same by table", "panels", 10, 0, "limit=600 V", "voc=49.5 V", "coldest=-10 °C"),
	},
}

// without leaves one input out.
func without(inputs []figure.Input, name string) []figure.Input {
	var list []figure.Input
	for _, i := range inputs {
		if i.Name != name {
			list = append(list, i)
		}
	}
	return list
}

func computeSeries(a figure.Args) (figure.Results, error) {
	if err := inside(a, limit{"limit", 1, 1e5}); err != nil {
		return nil, err
	}
	one, err := PanelColdVoltage.Use(figure.N("voc", a.Num("voc")), figure.N("coldest", a.Num("coldest")),
		figure.T("method", a.Text("method")), figure.N("temperature-coefficient", a.Num("temperature-coefficient")))
	if err != nil {
		return nil, err
	}
	const rounding = 1e-9
	n := math.Floor(a.Num("limit")/one.Num("voltage_v") + rounding)
	return figure.Results{"panels": n, "voltage_v": n * one.Num("voltage_v")}, nil
}

// ControllerCurrent answers how large a solar charger an array asks for.
var ControllerCurrent = &figure.Figure{
	Name:    "controller-current",
	Answers: "What output current does an array ask of its charger?",
	Inputs:  []figure.Input{rated, {Name: "voltage", Dim: quantity.Volts, Doc: "of the bank; its lowest gives the largest current"}},
	Outputs: []figure.Output{
		{Key: "current_a", Dim: quantity.Amperes, Doc: "at the panels' rated power"},
		{Key: "design_a", Dim: quantity.Amperes, Doc: "with a quarter more; take the next larger charger"},
	},
	Equation: "current = rated / voltage; design = 1.25 · current",
	Source:   source.ControllerSizing,
	Range:    "a charger that limits its own output may be smaller, and gives that much less",
	Compute:  computeController,
	Checks: []figure.Check{
		check(source.ControllerSizing, "published: 1000 W at 24 V", "current_a", 41.7, 0.1, "rated=1000 W", "voltage=24 V"),
		check(source.ControllerSizing, "published: so 52.1 A, a charger of 60 A", "design_a", 52.1, 0.1, "rated=1000 W", "voltage=24 V"),
	},
}

func computeController(a figure.Args) (figure.Results, error) {
	if !(a.Num("voltage") > 0) {
		return nil, fmt.Errorf("voltage must be more than zero: %w", figure.ErrRange)
	}
	amperes := a.Num("rated") / a.Num("voltage")
	return figure.Results{"current_a": amperes, "design_a": margin * amperes}, nil
}
