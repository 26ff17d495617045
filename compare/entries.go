package compare

import (
	"fmt"
	"math"

	"ampstead/fit"
	"ampstead/wire"
)

// name tells a result from all others.
type name struct{ stage, key string }

// entry is one result of one rig.
type entry struct {
	name
	what, unit string
	value      Value
	better     Better
	show       format
}

// list gathers the entries of a stage.
type list struct {
	stage string
	all   []entry
}

func (l *list) add(key, what, unit string, v float64, better Better, show format) {
	l.all = append(l.all, entry{name{l.stage, key}, what, unit, Value{Known: true, Number: tidy(v)}, better, show})
}

// tidy drops the dust of floating point.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

func fitEntries(res *fit.Result) []entry {
	l := &list{stage: Fit}
	l.add("window_cell_low_v", "a cell never below", "V", res.Window.CellLowV, Neither, volts)
	l.add("window_cell_high_v", "a cell never above", "V", res.Window.CellHighV, Neither, volts)
	l.add("window_usable_energy_wh", "energy in the safe window", "Wh", res.Window.UsableWh, More, energy)
	l.add("daily_bank_low_v", "bank day by day, from", "V", res.Daily.BankLowV, Neither, volts)
	l.add("daily_bank_high_v", "bank day by day, to", "V", res.Daily.BankHighV, Neither, volts)
	l.add("daily_usable_charge_ah", "charge used day by day", "Ah", res.Daily.UsableAh, More, ampHours)
	l.add("daily_usable_energy_wh", "energy used day by day", "Wh", res.Daily.UsableWh, More, energy)
	l.add("capacity_ah", "capacity reckoned with", "Ah", res.Cell.Capacity, More, ampHours)
	l.add("bank_resistance_ohm", "resistance of the bank", "Ω", res.Cell.Ohm, Less, ohms)
	l.layers("layer", "", res.Layers)
	l.layers("today", ", as set today", res.Today)
	l.settings(res.Settings)
	return l.all
}

// layers are where each acts and how far it stands from the next one; more room is
// not better by itself, but too little is worse.
func (l *list) layers(prefix, when string, all []fit.Layer) {
	least := math.Inf(1)
	for _, layer := range all {
		l.add(prefix+"_"+layer.Name+"_v", layer.Name+when+": acts at, of a cell", "V", layer.SetV, Neither, volts)
		l.add(prefix+"_"+layer.Name+"_margin_v", layer.Name+when+": worst-case gap to the next layer", "V", layer.MarginMV/1000, Neither, volts)
		least = math.Min(least, layer.MarginMV/1000)
	}
	if !math.IsInf(least, 1) {
		l.add(prefix+"_least_margin_v", "least gap between two layers"+when+", worst case; negative where they overlap", "V", least, More, volts)
	}
}

// settings are what is recommended for each device.
func (l *list) settings(all []fit.Setting) {
	differ := 0
	for _, s := range all {
		if s.Differs {
			differ++
		}
		e := entry{name: name{Fit, "setting_" + s.Device + "_" + s.Setting}, what: s.Device + ": " + s.Setting + ", recommended"}
		switch v := s.Value.(type) {
		case float64:
			e.value, e.unit = Value{Known: true, Number: v}, s.Unit
			e.show = times
			if s.Dim != nil {
				e.show = format{dim: s.Dim}
			}
		default:
			e.value = Value{Known: true, Word: fmt.Sprint(v)}
		}
		l.all = append(l.all, e)
	}
	l.add("settings_that_differ", "settings that are not as recommended", "", float64(differ), Less, count)
}

func wireEntries(res *wire.Result) []entry {
	l := &list{stage: Wire}
	l.add("short_circuit_a", "current of a short at the bank's terminals (prospective)", "A", res.ShortA, Neither, amperes)
	l.add("string_short_circuit_a", "current of a short that one string's fuse meets", "A", res.StringShortA, Neither, amperes)
	l.circuits(res.Circuits)
	l.panels(res.Strings)
	l.supplies(res.Supplies)
	if p := res.PreCharge; p != nil {
		l.add("pre_charge_resistance_ohm", "resistor before the contactor closes (pre-charge)", "Ω", p.Ohm, Neither, ohms)
		l.add("pre_charge_time_s", "time that resistor is on", "s", p.TimeS, Neither, seconds)
	}
	metresAll := 0.0
	for _, t := range res.Totals {
		metresAll += t.LengthM
	}
	l.add("cable_length_m", "conductor, all sizes together", "m", metresAll, Neither, metres)
	return l.all
}

// circuits are the hardest of each kind.
func (l *list) circuits(all []wire.Circuit) {
	if len(all) == 0 {
		return
	}
	current, drop, spare := 0.0, 0.0, math.Inf(1)
	for _, c := range all {
		current = math.Max(current, c.CurrentA)
		drop = math.Max(drop, c.WayPercent)
		if c.CurrentA > 0 {
			spare = math.Min(spare, c.AmpacityA/c.CurrentA)
		}
	}
	l.add("largest_current_a", "largest current for long in one run", "A", current, Neither, amperes)
	l.add("worst_drop_percent", "largest voltage drop from the bank to an end", "%", drop, Less, percent)
	if !math.IsInf(spare, 1) {
		l.add("least_ampacity_ratio", "conductor with the least to spare: what it bears over what it carries (ampacity over current)", "", spare, More, times)
	}
}

func (l *list) panels(all []wire.String) {
	cold, of := 0.0, 0.0
	for _, p := range all {
		cold = math.Max(cold, p.ColdV)
		if p.LimitV > 0 {
			of = math.Max(of, p.ColdV/p.LimitV)
		}
	}
	if len(all) > 0 {
		l.add("string_cold_v", "panel string on the coldest day, open", "V", cold, Neither, volts)
	}
	if of > 0 {
		l.add("string_cold_fraction", "panel string on the coldest day, of what its charger's input bears", "", of, Less, share)
	}
}

func (l *list) supplies(all []wire.Supply) {
	most := 0.0
	for _, s := range all {
		if s.RatedW > 0 {
			most = math.Max(most, s.DemandW/s.RatedW)
		}
	}
	if len(all) > 0 {
		l.add("supply_demand_fraction", "hardest-used converter or inverter: everything on at once, of its rating", "", most, Less, share)
	}
}
