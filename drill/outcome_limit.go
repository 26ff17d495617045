package drill

import (
	"math"

	"ampstead/fit"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// limits are the lines a run is judged by.
type limits struct {
	lowV, highV     float64 // of a cell: harm beyond
	nearLow         float64 // V of room inside it that counts as near: the tolerance of the last layer
	nearHigh        float64
	alarmLow        float64 // V of a cell: in danger beyond
	alarmHigh       float64
	dailyLow        float64 // V of a cell
	easyLow         float64 // V of a cell: loads that go without between these do so needlessly
	easyHigh        float64
	coolC           float64 // °C below which charging may go on
	hotC, warmC     float64 // harm, and in danger
	frostC, lockC   float64 // harm to charge at or below; locked below
	traceAh         float64 // charge in frost that counts as none
	chargeA, drainA float64 // of the whole bank, with all cells carrying alike
}

// trace is the share of the capacity that may be charged in frost before it
// counts as harm: what flows while a switch works.
const trace = 0.001

// nearHot is how close to the heat limit counts as near, K.
const nearHot = 3.0

// limitsOf reads the lines off what fit found. The highest rates of the cell's
// tables count, those of a warm cell: what it takes in the cold is fit's to say,
// and charge in frost is judged by itself.
func limitsOf(r *rig.Rig, res *fit.Result) limits {
	w, c := &res.Window, res.Kind
	l := limits{
		lowV: w.CellLowV, highV: w.CellHighV, dailyLow: res.Daily.CellLowV, easyLow: easyLow(r, res), easyHigh: res.Daily.CellHighV + easyV, coolC: c.ChargeMaxC.Value,
		hotC: c.HarmC.Value, warmC: c.AlarmC.Value, frostC: c.ChargeMinC.Value, lockC: c.ChargeMinC.Value,
		traceAh: trace * res.Cell.Capacity,
		chargeA: fastest(c.ChargeRates) * res.Cell.Capacity, drainA: fastest(c.DischargeRate) * res.Cell.Capacity,
	}
	l.nearLow, l.nearHigh = lastTolerance(res.Today, "low"), lastTolerance(res.Today, "high")
	l.alarmLow = alarmOr(res.Layers, fit.AlarmLow, (res.Daily.CellLowV+w.CellLowV)/2)
	l.alarmHigh = alarmOr(res.Layers, fit.AlarmHigh, (res.Daily.CellHighV+w.CellHighV)/2)
	for _, m := range res.Warmth {
		switch m.Name {
		case "frost lock":
			l.lockC = m.HighC + lockBackK
		case "charge stop, hot":
			l.coolC = m.LowC
		}
	}
	return l
}

// easyV is how far past the daily top a cell may stand before its bank counts as
// full, V; lockBackK how far above a frost lock charging comes back, K.
const (
	easyV     = 0.01
	lockBackK = 2.0
)

// easyLow is where every low cut-off has let its loads on again, V of a cell.
func easyLow(r *rig.Rig, res *fit.Result) float64 {
	low := res.Daily.CellLowV
	for _, s := range res.Settings {
		if v, ok := s.Value.(float64); ok && s.Setting == "restart" && (s.Kind == "inverter" || s.Kind == "converter") {
			low = max(low, v/float64(r.Bank.Series))
		}
	}
	return low
}

func fastest(r cell.Rates) float64 {
	most := 0.0
	for _, p := range r.Points {
		most = max(most, p.Rate)
	}
	return most
}

func alarmOr(layers []fit.Layer, name string, instead float64) float64 {
	for k := range layers {
		if layers[k].Name == name {
			return layers[k].SetV
		}
	}
	return instead
}

// lastTolerance is the worst-case error of the outermost layer set today on a
// side, V of a cell. Spread and drift are in the run already, and the fall of
// voltage to the place of sensing too: what is left of the layer's band is the
// smaller of its two sides.
func lastTolerance(layers []fit.Layer, side string) float64 {
	last := -1
	for k := range layers {
		if l := &layers[k]; l.Side == side && l.Name != fit.HarmLow && l.Name != fit.HarmHigh {
			if side == "high" || last < 0 {
				last = k
			}
		}
	}
	if last < 0 {
		return 0
	}
	members := layers[last].Members
	if len(members) == 0 {
		members = layers[last : last+1]
	}
	worst := 0.0
	for _, m := range members {
		worst = max(worst, math.Min(m.HighV-m.SetV, m.SetV-m.LowV))
	}
	return worst
}
