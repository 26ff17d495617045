package drill

// worseBy is how much farther beyond the limit a fault must bring a cell in a
// scene that reaches harm by itself to count as a discovery, mV; ours.
const worseBy = 20

// failures are the runs of single faults that reach harm, scenes with nothing
// wrong first. Where a scene reaches harm by itself a fault counts only when it
// brings another harm, or clearly more.
func (s *study) failures() []harmRun {
	var list []harmRun
	for k, o := range s.base {
		if o.Outcome == Harm {
			list = append(list, harmRun{-1, -1, k, o})
		}
	}
	for f := range s.single {
		for k, o := range s.single[f] {
			if o.Outcome == Harm && s.adds(o, s.base[k]) {
				list = append(list, harmRun{f, -1, k, o})
			}
		}
	}
	return list
}

func (s *study) adds(o, base Outcome) bool {
	return base.Outcome != Harm || o.Harm != base.Harm || o.MarginMV < base.MarginMV-worseBy
}

// uncovered lists single faults, then pairs, that reach harm.
func (s *study) uncovered() []Uncovered {
	list := []Uncovered{}
	for _, runs := range [][]harmRun{s.failures(), s.harm} {
		at := map[[2]int]int{}
		for _, h := range runs {
			if h.a < 0 {
				continue // it takes no fault: that is a finding
			}
			key := [2]int{h.a, h.b}
			k, seen := at[key]
			if !seen {
				k = len(list)
				at[key] = k
				list = append(list, Uncovered{Faults: s.names(h), Harm: h.out.Harm, Addition: s.cover[key]})
			}
			u := &list[k]
			u.Scenes = append(u.Scenes, s.scenes[h.scene].Name)
			u.Silent = u.Silent || h.out.Silent || h.b >= 0 && s.silent(h)
		}
	}
	return list
}

// names are those of a run's faults.
func (s *study) names(h harmRun) []string {
	list := []string{}
	for _, f := range h.faults(func(f int) int { return f }) {
		list = append(list, s.faults[f].Name)
	}
	return list
}
