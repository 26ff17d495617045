package handbook

import (
	"slices"

	"ampstead/figure"
	"ampstead/physics/ageing"
	"ampstead/physics/balance"
	"ampstead/physics/bank"
	"ampstead/physics/cell"
	"ampstead/physics/conductor"
	"ampstead/physics/convert"
	"ampstead/physics/measure"
	"ampstead/physics/panel"
	"ampstead/physics/protect"
	"ampstead/physics/setpoint"
	"ampstead/physics/sun"
	"ampstead/physics/tolerance"
	"ampstead/weather/climate"
	"ampstead/working"
)

// StageNames lists the stages whose figures can be looked at alone, as the job goes.
var StageNames = []string{"choose", "prove", "fit", "wire", "drill", "travel", "keep"}

// Stages names the stages that reckon with a figure, as the job goes.
func Stages(name string) []string {
	var list []string
	for _, stage := range StageNames {
		if slices.Contains(stageFigures[stage], name) {
			list = append(list, stage)
		}
	}
	return list
}

// stageFigures are the figures behind each stage: of the laws it uses, and of the
// chain of its simulation.
var stageFigures = map[string][]string{
	"fit":    slices.Concat(names(cell.Figures(), tolerance.Figures(), setpoint.Figures()), []string{"voltage-drop", "short-circuit"}),
	"wire":   slices.Concat(names(conductor.Figures(), protect.Figures(), convert.Figures()), []string{"panel-cold-voltage", "panels-in-series", "panel-current"}),
	"travel": slices.Concat(names(sun.Figures(), panel.Figures(), climate.Figures(), bank.Figures(), convert.Figures()), working.Year.Figures()),
	"drill":  slices.Concat(names(bank.Figures()), working.Faults.Figures()),
	"prove":  slices.Concat(names(measure.Figures(), balance.Figures()), working.Bench.Figures()),
	"keep":   slices.Concat(names(measure.Figures(), balance.Figures()), working.Log.Figures(), working.Years.Figures()),
	"choose": slices.Concat(names(ageing.Figures()), working.Compare.Figures()),
}

func names(lists ...[]*figure.Figure) []string {
	var all []string
	for _, list := range lists {
		for _, f := range list {
			all = append(all, f.Name)
		}
	}
	return all
}
