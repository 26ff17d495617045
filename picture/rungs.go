package picture

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"ampstead/fit"
)

// rung is one or more devices that act at the same setting, with one label.
type rung struct {
	at     float64 // V, cell nearest to harm
	bars   []bar
	harm   bool // the limit of the cell itself
	bad    bool // in harm, crosses the next layer, or not set
	unset  bool // nothing is set where something is recommended
	value  string
	name   string
	remark string
}

// bar is where the cell nearest to harm can be when one device acts.
type bar struct{ low, high, likelyLow, likelyHigh float64 }

// limits are the cell's own, V.
type limits struct{ low, high float64 }

func limitsOf(res *fit.Result) limits {
	lim := limits{res.Window.CellLowV, res.Window.CellHighV}
	for _, l := range res.Layers {
		switch l.Name {
		case fit.HarmLow:
			lim.low = l.SetV
		case fit.HarmHigh:
			lim.high = l.SetV
		}
	}
	lim.high = math.Max(lim.high, lim.low+0.01) // there is always a scale to draw
	return lim
}

// rungsOf turns layers into rungs from the highest voltage to the lowest.
func rungsOf(layers []fit.Layer, lim limits) []rung {
	var rungs []rung
	for _, l := range layers {
		if l.Name == fit.HarmLow || l.Name == fit.HarmHigh {
			rungs = append(rungs, harmRung(l))
			continue
		}
		next := nextLayer(layers, l.Name)
		for _, group := range alike(l, next) {
			rungs = append(rungs, deviceRung(group, next, lim))
		}
	}
	slices.SortStableFunc(rungs, fromTop)
	return rungs
}

func harmRung(l fit.Layer) rung {
	name := "harm to a cell above this"
	if l.Name == fit.HarmLow {
		name = "harm to a cell below this"
	}
	return rung{at: l.SetV, harm: true, value: volts(l.SetV), name: name}
}

// inward to outward, the layers of either side.
var (
	highOrder = []string{fit.DailyHigh, fit.AlarmHigh, fit.DisconnHigh, fit.HarmHigh}
	lowOrder  = []string{fit.DailyLow, fit.AlarmLow, fit.DisconnLow, fit.HarmLow}
)

// nextLayer finds the layer that follows name towards harm among those present;
// the zero layer when there is none.
func nextLayer(layers []fit.Layer, name string) fit.Layer {
	order := highOrder
	if slices.Contains(lowOrder, name) {
		order = lowOrder
	}
	for _, next := range order[slices.Index(order, name)+1:] {
		if i := slices.IndexFunc(layers, func(l fit.Layer) bool { return l.Name == next }); i >= 0 {
			return layers[i]
		}
	}
	return fit.Layer{}
}

// absent lists the layers that are not there.
func absent(layers []fit.Layer) []string {
	var missing []string
	for _, order := range [][]string{highOrder, lowOrder} {
		for _, name := range order[:3] {
			if !slices.ContainsFunc(layers, func(l fit.Layer) bool { return l.Name == name }) {
				missing = append(missing, name)
			}
		}
	}
	return missing
}

// unset makes a rung for every recommended layer that has nothing set today.
func unset(today, recommended []fit.Layer) []rung {
	var rungs []rung
	missing := absent(today)
	for _, l := range recommended {
		if slices.Contains(missing, l.Name) {
			rungs = append(rungs, rung{at: l.SetV, bad: true, unset: true, value: "not set", name: l.Device + ": " + l.Setting,
				remark: plainName(l.Name) + " is missing"})
		}
	}
	return rungs
}

func fromTop(a, b rung) int { return cmp.Compare(b.at, a.at) }

// plainName is a layer's name without its side: "the alarm", "harm".
func plainName(name string) string {
	name = strings.TrimSuffix(strings.TrimSuffix(name, " low"), " high")
	switch name {
	case "harm", "":
		return "harm"
	case "daily":
		return "the daily limit"
	}
	return "the " + name
}

// alike groups the devices of a layer that have the same setting at the same
// value, each with its own margin to the next layer.
func alike(l, next fit.Layer) [][]fit.Layer {
	if len(l.Members) == 0 {
		return [][]fit.Layer{{l}}
	}
	var groups [][]fit.Layer
	for _, m := range l.Members {
		m.Name = l.Name
		if next.Name != "" {
			m.MarginMV, m.LikelyMV = gap(m, next)
		}
		i := slices.IndexFunc(groups, func(g []fit.Layer) bool {
			return g[0].Setting == m.Setting && g[0].DeviceSetV == m.DeviceSetV && math.Abs(g[0].SetV-m.SetV) < 1e-6
		})
		if i < 0 {
			groups = append(groups, []fit.Layer{m})
			continue
		}
		groups[i] = append(groups[i], m)
	}
	return groups
}

// gap is the worst-case and the likely margin (mV) from one device to the next
// layer: the latter from the middles of both, less the root-sum-square of their
// half widths.
func gap(m, next fit.Layer) (worst, likely float64) {
	below, above := m, next
	if m.Side == "low" {
		below, above = next, m
	}
	apart := (above.LikelyLowV + above.LikelyHighV - below.LikelyLowV - below.LikelyHighV) / 2
	half := math.Hypot(above.LikelyHighV-above.LikelyLowV, below.LikelyHighV-below.LikelyLowV) / 2
	return 1000 * (above.LowV - below.HighV), 1000 * (apart - half)
}

func deviceRung(group []fit.Layer, next fit.Layer, lim limits) rung {
	r := rung{at: group[0].SetV, value: volts(group[0].DeviceSetV)}
	var devices []string
	worst := group[0]
	for _, m := range group {
		devices = append(devices, m.Device)
		r.bars = append(r.bars, bar{m.LowV, m.HighV, m.LikelyLowV, m.LikelyHighV})
		if m.MarginMV < worst.MarginMV {
			worst = m
		}
	}
	r.name = listing(devices)
	if group[0].Setting != "" {
		r.name += ": " + group[0].Setting
	}
	said, bad := remark(worst, next, lim)
	r.remark, r.bad = kindOf(worst.Name)+", "+said, bad
	return r
}

// kindOf is the layer's name without its side, "daily limit" for the daily ones.
func kindOf(layer string) string {
	return strings.TrimPrefix(plainName(layer), "the ")
}

// remark says how far a layer stays from the next one, or what it runs into.
func remark(l, next fit.Layer, lim limits) (text string, bad bool) {
	into, reach := l.SetV-lim.high, l.HighV-lim.high
	if l.Side == "low" {
		into, reach = lim.low-l.SetV, lim.low-l.LowV
	}
	const least = 0.5e-3 // V, what rounds to a whole millivolt
	switch {
	case into > least && math.Abs(l.SetV-l.DeviceSetV) > least:
		return volts(l.SetV) + " a cell, " + millivolts(into*1000) + " into harm", true
	case into > least:
		return millivolts(into*1000) + " into harm", true
	case reach > least:
		return "can go " + millivolts(reach*1000) + " into harm", true
	case l.MarginMV < -0.5:
		return "can come " + millivolts(l.MarginMV) + " after " + plainName(next.Name), true
	}
	text = millivolts(l.MarginMV) + " before " + plainName(next.Name)
	if millivolts(l.LikelyMV) != millivolts(l.MarginMV) && l.LikelyMV > l.MarginMV {
		text += " (likely " + strings.TrimSuffix(millivolts(l.LikelyMV), " mV") + ")"
	}
	return text, false
}
