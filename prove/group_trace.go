package prove

import "math"

const (
	settleS   = 60   // s after a change of current that the model of a trace does not hold for
	restReadS = 1800 // s of rest after which a voltage is read as settled, as pulse tests do
	shareOf   = 0.05 // of the charge: readings closer together than this err alike
)

// window is the stretch that capacities are read from.
type window struct {
	segs        []segment // the first may be the rest before
	discharging bool
}

// window is the stretch that tells most of capacity: the latest discharge of at
// least half the largest, with the rest before it; a charge where there is no
// discharge.
func (s *study) window() window {
	most := 0.0
	for _, c := range s.res.Cycles {
		most = max(most, c.ChargeAh)
	}
	var chosen *Cycle
	for k := range s.res.Cycles {
		c := &s.res.Cycles[k]
		if c.ChargeAh < most/2 || chosen != nil && c.Kind == "charge" && chosen.Kind == "discharge" {
			continue
		}
		chosen = c
	}
	if chosen == nil {
		return window{}
	}
	return window{s.between(chosen.From, chosen.To), chosen.Kind == "discharge"}
}

// between returns the segments from one time to another with the rest before.
func (s *study) between(from, to float64) []segment {
	first, last := -1, -1
	for k, seg := range s.segs {
		if seg.To <= from || seg.From >= to || len(seg.points) < 2 {
			continue
		}
		if first < 0 {
			first = k
		}
		last = k
	}
	if first < 0 {
		return nil
	}
	if before := first - 1; before >= 0 && s.segs[first].load() && !s.segs[before].load() && s.segs[before].island == s.segs[first].island {
		first = before
	}
	return s.segs[first : last+1]
}

// origin is the sample a window is counted from: the end of the rest before, or
// its very first.
func (w window) origin() *sample {
	first := w.segs[0].points
	if w.segs[0].Kind == "rest" {
		return &first[len(first)-1]
	}
	return &first[0]
}

// end is the last sample under load.
func (w window) end() *sample {
	for k := len(w.segs) - 1; k > 0 && w.segs[k].Kind == "rest"; k-- {
		w.segs = w.segs[:k]
	}
	last := w.segs[len(w.segs)-1].points
	return &last[len(last)-1]
}

// cells returns how many groups can be told apart.
func (s *study) cells() int {
	if s.groups == 0 && s.series == 1 {
		return 1
	}
	return s.groups
}

// groupV is a group's voltage in a sample; of a single group without a column of
// its own it is the terminal voltage.
func (p *sample) groupV(g int) float64 {
	if len(p.groups) == 0 {
		return p.v
	}
	return p.groups[g]
}

// trace returns a group's trace over a window: readings under load once they have
// settled, each standing for the charge to the next, and the end of every later
// rest long enough to be read; the first is known as the start. perAh is a first guess of 1/capacity.
func (s *study) trace(g int, w window, perAh float64) []tracePoint {
	fast, slow := s.kind.Split(1)
	tau := s.kind.SlowTauS.Value
	zero := w.origin().ah
	var points []tracePoint
	branch := 0.0
	for k, seg := range w.segs {
		before := seg.points[0]
		for _, p := range seg.points[1:] {
			keep := math.Exp(-(p.t - before.t) / tau)
			branch = branch*keep + p.a*(1-keep)
			t := tracePoint{q: p.ah - zero, u: fast*p.a + slow*branch, v: p.groupV(g)}
			t.weight = math.Abs(p.ah-before.ah) * perAh / shareOf
			if seg.Kind != "rest" && p.t-seg.From > settleS && t.weight > 0 && !math.IsNaN(t.v) {
				points = append(points, t)
			}
			before = p
		}
		if k > 0 && seg.Kind == "rest" && seg.To-seg.From >= restReadS && !math.IsNaN(before.groupV(g)) {
			points = append(points, tracePoint{q: before.ah - zero, v: before.groupV(g), weight: 1})
		}
	}
	return points
}
