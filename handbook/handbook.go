package handbook

import (
	"fmt"
	"sort"
	"strings"

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
)

// All returns every figure in alphabetical order.
func All() []*figure.Figure {
	var all []*figure.Figure
	for _, list := range [][]*figure.Figure{cell.Figures(), balance.Figures(), bank.Figures(), conductor.Figures(), tolerance.Figures(),
		sun.Figures(), panel.Figures(), convert.Figures(), protect.Figures(), ageing.Figures(), measure.Figures(), climate.Figures(), setpoint.Figures()} {
		all = append(all, list...)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Name < all[j].Name })
	return all
}

// Find returns the figure of that name; the error suggests the nearest ones.
func Find(name string) (*figure.Figure, error) {
	var near []string
	for _, f := range All() {
		if f.Name == name {
			return f, nil
		}
		if strings.Contains(f.Name, name) || strings.Contains(name, f.Name) {
			near = append(near, f.Name)
		}
	}
	if len(near) > 0 {
		return nil, fmt.Errorf("no figure %q; did you mean %s", name, strings.Join(near, " or "))
	}
	return nil, fmt.Errorf("no figure %q; run ampstead figure for the list", name)
}
