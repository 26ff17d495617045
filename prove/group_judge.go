package prove

import (
	"math"
	"slices"

	"ampstead/figure"
	"ampstead/physics/balance"
	"ampstead/physics/cell"
)

// judge tells what the measured log says of each group and of the whole, and
// grades it. It is called once everything is measured.
func (s *study) judge() error {
	s.res.Series = s.series
	groups := s.fitGroups()
	s.doubtCurve(groups)
	s.tellGroups(groups)
	s.tellSpreads()
	s.res.Rests = s.rests()
	s.tellLeaks()
	s.explain(groups)
	s.grade()
	s.res.NotTold = s.steps()
	s.res.Findings = s.findings()
	return nil
}

// tellGroups fills in what is known of each group.
func (s *study) tellGroups(groups []groupStudy) {
	s.res.Groups = []Group{}
	if len(groups) == 0 {
		return
	}
	told := s.tellable(groups)
	capacity := s.groupCapacities(groups)
	lost, behind := s.losses(groups, capacity), s.offsets(groups)
	for k := range groups {
		g := Group{Number: k + 1, RestV: finite(groups[k].restV), EndV: finite(groups[k].endV), Unknown: groups[k].why}
		g.Ohm, g.OhmErr = s.groupOhm(k)
		if g.Unknown == "" {
			g.CapacityAh, g.CapacityErr = capacity[k].value, capacity[k].sigma
			g.LostAh, g.LostErr = lost[k].value, lost[k].sigma
			g.OffsetAh, g.OffsetErr = behind[k].value, behind[k].sigma
			g.Recoverable = min(max(behind[k].value, 0), capacity[k].value)
		}
		s.res.Groups = append(s.res.Groups, g)
	}
	s.tellEnds(groups, told)
}

func (s *study) tellEnds(groups []groupStudy, fitted bool) {
	low, high := s.ends(groups, fitted)
	if low >= 0 {
		s.res.Limiting = low + 1
		s.res.Groups[low].LowEnd = true
	}
	if high >= 0 {
		s.res.ChargeLimit = high + 1
		s.res.Groups[high].HighEnd = true
	}
}

// finite drops what is no number: a log without a rest has no rest voltage.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// tellSpreads fills in how far the groups stand apart near full, half and empty.
func (s *study) tellSpreads() {
	w := s.window()
	if len(w.segs) == 0 || s.groups < 2 {
		return
	}
	first, last := w.origin(), w.end()
	high, low := first, last
	if !w.discharging {
		high, low = last, first
	}
	curve := s.kind.Curve
	if mean := meanOf(high.groups); curve.SoC(mean) > 0.85 {
		s.res.SpreadHigh = pointer(slices.Max(high.groups) - mean)
	}
	if mean := meanOf(low.groups); slices.Min(low.groups) < s.res.Low+nearEnd || curve.SoC(mean) < 0.15 {
		s.res.SpreadLow = pointer(mean - slices.Min(low.groups))
	}
	half := w.atCharge((first.ah + last.ah) / 2)
	s.res.SpreadMid = pointer(slices.Max(half.groups) - slices.Min(half.groups))
}

func pointer(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

func meanOf(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

// atCharge is the sample nearest to a running charge.
func (w window) atCharge(ah float64) *sample {
	best := w.origin()
	for k := range w.segs {
		for j := range w.segs[k].points {
			if p := &w.segs[k].points[j]; math.Abs(p.ah-ah) < math.Abs(best.ah-ah) {
				best = p
			}
		}
	}
	return best
}

// tellLeaks puts the groups' own leaks beside the median.
func (s *study) tellLeaks() {
	leaks := s.groupLeaks()
	for k := range leaks {
		g := &s.res.Groups[min(k, len(s.res.Groups)-1)]
		g.LeakMA, g.LeakErrMA = &leaks[k].value, leaks[k].sigma
		g.LeakBound = leaks[k].value < leaks[k].sigma
	}
}

// explain keeps the figures behind the groups' charge, so that a page can show
// them; what a figure refuses is not explained by it.
func (s *study) explain(groups []groupStudy) {
	var volts []float64
	for k := range groups {
		if g := &groups[k]; !math.IsNaN(g.restV) {
			s.figures.Try(cell.SoCFromRest, figure.T("cell", s.kind.Name), figure.N("voltage", g.restV), figure.N("meter-error", settledV))
			volts = append(volts, g.restV)
		}
	}
	if len(volts) > 1 && s.wholeAh() > 0 {
		s.figures.Try(balance.Bleed, figure.T("cell", s.kind.Name), figure.N("capacity", s.wholeAh()), figure.L("voltages", volts))
	}
}
