package fit

import (
	"math"
	"sort"

	"ampstead/physics/tolerance"
)

// Layer names from harm inwards, and all of them in rising voltage.
var (
	highInward = []string{DisconnHigh, AlarmHigh, DailyHigh}
	lowInward  = []string{DisconnLow, AlarmLow, DailyLow}
	rising     = []string{DisconnLow, AlarmLow, DailyLow, DailyHigh, AlarmHigh, DisconnHigh}
)

// ladder is the staged layers: each device's thresholds, and the layers drawn
// from them.
type ladder struct {
	by   map[string][]*limiter
	list []Layer
}

func (l ladder) members(layer string) []*limiter { return l.by[layer] }

// find returns the limiter of a setting, nil when it is in no layer.
func (l ladder) find(path string) *limiter {
	for _, name := range rising {
		for _, m := range l.by[name] {
			if m.path == path {
				return m
			}
		}
	}
	return nil
}

func (l ladder) layers() []Layer { return l.list }

// recommend works the set-points out from harm inwards: the outermost layer as
// far out as its tolerance permits, the next as far out as it can be without
// crossing it, the daily limits gentler where the cell's life asks for it.
func (s *study) recommend() ladder {
	l := s.collect(false)
	s.settle(l, highInward, s.cell.MaxV.Value, 0)
	s.settle(l, lowInward, s.cell.MinV.Value, 0)
	s.raiseLowest(l)
	l.list = s.rungs(l)
	return l
}

// settle places the layers of one side from harm inwards; a low disconnect is
// set no lower than raise (V of the whole bank).
func (s *study) settle(l ladder, inward []string, harm, raise float64) {
	limit := harm
	for _, name := range inward {
		for _, m := range l.by[name] {
			away := 0.0
			if name == DisconnLow && m.th.Series > 1 {
				away = raise / (1 - m.th.Tolerance)
			}
			m.place(limit, away)
		}
		limit = innermost(l.by[name], limit)
	}
}

// innermost is where the first device of a layer can act, or the limit outside
// it when the layer has none.
func innermost(members []*limiter, limit float64) float64 {
	for k, m := range members {
		inner := m.band().Inner
		switch {
		case k == 0:
			limit = inner
		case m.th.High:
			limit = min(limit, inner)
		default:
			limit = max(limit, inner)
		}
	}
	return limit
}

// raiseLowest moves the low disconnect up where it would come too late for
// something else: an inverter that stops working before, or a group known to be
// weaker than the mean. Only so far that no daily limit has to give way.
func (s *study) raiseLowest(l ladder) {
	var wanted []float64
	for _, inv := range s.rig.Inverters {
		wanted = append(wanted, float64(*inv.InputLow))
	}
	if v, ok := s.meanAtHarm(); ok {
		wanted = append(wanted, v*s.series())
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(wanted)))
	before := settings(l.by[DailyLow])
	for _, raise := range wanted {
		s.settle(l, lowInward, s.cell.MinV.Value, raise)
		if sameSettings(before, settings(l.by[DailyLow])) {
			return
		}
	}
	s.settle(l, lowInward, s.cell.MinV.Value, 0)
}

func settings(members []*limiter) []float64 {
	var list []float64
	for _, m := range members {
		list = append(list, m.th.Setting)
	}
	return list
}

func sameSettings(a, b []float64) bool {
	for k := range a {
		if math.Abs(a[k]-b[k]) > nudge {
			return false
		}
	}
	return true
}

// meanAtHarm is the mean voltage of a group when the weakest one has reached
// the lower harm line, known when group capacities are.
func (s *study) meanAtHarm() (float64, bool) {
	share, ok := s.weakShare()
	if !ok || share >= 1 {
		return 0, false
	}
	return tolerance.MeanAtWeakest(s.cell.Curve, share, s.cell.MinV.Value), true
}

// asSet is the ladder as the rig is set today.
func (s *study) asSet() ladder {
	l := s.collect(true)
	l.list = s.rungs(l)
	return l
}
