package fit

import (
	"math"

	"ampstead/figure"
	"ampstead/physics/tolerance"
)

// rungs draws the layers of a ladder in rising voltage, between the two harm
// lines, and the margins between them.
func (s *study) rungs(l ladder) []Layer {
	known := []figure.Use{s.limits()}
	list := []Layer{harm(HarmLow, "low", "discharge limit", s.cell.MinV.Value, known)}
	for _, name := range rising {
		if members := l.by[name]; len(members) > 0 {
			list = append(list, s.layer(members))
		}
	}
	list = append(list, harm(HarmHigh, "high", "charge limit", s.cell.MaxV.Value, known))
	margins(list)
	return list
}

func harm(name, side, setting string, v float64, how []figure.Use) Layer {
	return Layer{Name: name, Device: "cell", Setting: setting, Side: side, SetV: v, LowV: v, HighV: v,
		LikelyLowV: v, LikelyHighV: v, DeviceSetV: v, How: how}
}

// layer is the envelope over its devices. It carries the name of the one that
// lets the cell come closest to harm.
func (s *study) layer(members []*limiter) Layer {
	var each []Layer
	governing := 0
	for k, m := range members {
		each = append(each, s.rung(m))
		if closer(each[k], each[governing]) {
			governing = k
		}
	}
	all := each[governing]
	if len(each) == 1 {
		return all
	}
	for _, e := range each {
		all.LowV, all.HighV = min(all.LowV, e.LowV), max(all.HighV, e.HighV)
		all.LikelyLowV, all.LikelyHighV = min(all.LikelyLowV, e.LikelyLowV), max(all.LikelyHighV, e.LikelyHighV)
	}
	all.Members = each
	return all
}

func closer(a, b Layer) bool {
	if a.Side == "high" {
		return a.HighV > b.HighV
	}
	return a.LowV < b.LowV
}

func (s *study) rung(m *limiter) Layer {
	side, u := sideOf(m), s.bandUse(m)
	return Layer{Name: m.layer, Device: m.device, Setting: m.setting, Path: m.path, Side: side,
		SetV: tidy(m.cellSet()), DeviceSetV: m.th.Setting, LowV: tidy(u.Num("low_v")), HighV: tidy(u.Num("high_v")),
		LikelyLowV: tidy(u.Num("likely_low_v")), LikelyHighV: tidy(u.Num("likely_high_v")), How: append([]figure.Use{u}, s.placed(m)...)}
}

// bandUse is where the cell nearest to harm can be when a threshold acts.
func (s *study) bandUse(m *limiter) figure.Use {
	return s.figures.Use(tolerance.LayerBand, figure.N("setting", m.th.Setting), figure.N("series", m.th.Series),
		figure.N("tolerance", m.th.Tolerance), figure.N("error", m.th.Error), figure.N("spread", m.th.Spread),
		figure.N("drop", m.th.Drop), figure.N("drift", m.th.Drift), figure.T("side", sideOf(m)))
}

// margins fills in the gap from each layer to the next one towards harm; a harm
// line gets the gap to the layer inside it.
func margins(list []Layer) {
	last := len(list) - 1
	for k := range list {
		below, above := max(k-1, 0), max(k, 1)
		if list[k].Side == "high" {
			below, above = min(k, last-1), min(k+1, last)
		}
		list[k].MarginMV = tidy((list[above].LowV - list[below].HighV) * 1000)
		list[k].LikelyMV = likelyGap(list[below], list[above])
	}
}

// likelyGap is the distance of two layers' middles less the root-sum-square of
// their half widths, mV.
func likelyGap(below, above Layer) float64 {
	middle := (above.LikelyLowV+above.LikelyHighV)/2 - (below.LikelyLowV+below.LikelyHighV)/2
	half := math.Hypot((above.LikelyHighV-above.LikelyLowV)/2, (below.LikelyHighV-below.LikelyLowV)/2)
	return tidy((middle - half) * 1000)
}
