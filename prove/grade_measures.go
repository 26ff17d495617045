package prove

import (
	"fmt"
	"math"
	"slices"

	"ampstead/physics/cell"
)

// measures gathers what the table asks for, as far as the log tells it.
func (s *study) measures() map[string]measured {
	r := s.res
	m := map[string]measured{}
	if r.CapacityAh > 0 && s.o.RatedAh > 0 {
		m["capacity"] = measured{estimate{r.CapacityAh / s.o.RatedAh, r.CapacityErr / s.o.RatedAh}, ""}
	}
	if r.Resistance > 0 && s.wholeAh() > 0 && s.pulsedAbove(emptyEnd) {
		expected := s.kind.ResistanceOhm(s.expectedOf(), 25) * float64(s.series)
		ratio := r.Resistance / expected
		m["resistance"] = measured{estimate{ratio, math.Hypot(r.ResistErr/expected, typicalShare*ratio)}, ""}
	}
	if r.Efficiency > 0 && s.kind.Family != cell.LeadAcid {
		m["efficiency"] = measured{estimate{1 - r.Efficiency, 0.002}, ""}
	}
	s.groupMeasures(m)
	s.extremes(m)
	return m
}

// What a cell's usual resistance is worth: it rises at the empty end, and cells of
// one kind differ.
const (
	emptyEnd     = 0.2
	typicalShare = 0.2
)

// pulsedAbove reports whether a step of current was seen at so much charge or
// more.
func (s *study) pulsedAbove(soc float64) bool {
	return slices.ContainsFunc(s.res.Pulses, func(p Pulse) bool { return p.SoC >= soc })
}

// expectedOf is the capacity an expected resistance goes with: the rated one, for
// a cell that has lost capacity has not gained the right to more resistance.
func (s *study) expectedOf() float64 {
	if s.o.RatedAh > 0 {
		return s.o.RatedAh
	}
	return s.wholeAh()
}

func (s *study) groupMeasures(m map[string]measured) {
	worst := func(id string, k int, value, sigma float64) {
		if old, ok := m[id]; !ok || value > old.value {
			m[id] = measured{estimate{value, sigma}, fmt.Sprintf("group %d, ", k+1)}
		}
	}
	if len(s.res.Groups) < 2 {
		return
	}
	ohm := s.medianOhm()
	for k, g := range s.res.Groups {
		if g.CapacityAh > 0 {
			whole := g.CapacityAh + g.LostAh
			worst("group-loss", k, g.LostAh/whole, g.LostErr/whole)
		}
		if g.Ohm > 0 && ohm > 0 {
			worst("group-resistance", k, g.Ohm/ohm, g.OhmErr/ohm)
		}
		if g.LeakMA != nil && s.wholeAh() > 0 {
			const month = 0.001 * 24 * 365.25 / 12 // h, from mA
			worst("group-leak", k, *g.LeakMA*month/s.wholeAh(), g.LeakErrMA*month/s.wholeAh())
		}
	}
}

// extremes are the lowest and highest voltage seen of a group; of the mean group
// where the log has no groups.
func (s *study) extremes(m map[string]measured) {
	if s.kind.Family == cell.LeadAcid || s.series == 0 {
		return
	}
	low, high, lowAt, highAt := math.Inf(1), math.Inf(-1), 0, 0
	for k := range s.segs {
		for j := range s.segs[k].points {
			p := &s.segs[k].points[j]
			for g := range max(1, s.groups) {
				v := p.v / float64(s.series)
				if s.groups > 0 {
					v = p.groupV(g)
				}
				if v < low {
					low, lowAt = v, g
				}
				if v > high {
					high, highAt = v, g
				}
			}
		}
	}
	if math.IsInf(low, 1) {
		return
	}
	m["deepest"] = measured{estimate{low, settledV}, s.named(lowAt)}
	m["highest"] = measured{estimate{high - s.kind.MaxV.Value, settledV}, s.named(highAt)}
}

func (s *study) named(g int) string {
	if s.groups < 2 {
		return ""
	}
	return fmt.Sprintf("group %d, ", g+1)
}
