package keep

import "math"

// compare gives every usable visit each group's offset: its charge below full
// against what all groups share, so that a meter's gain, the temperature and the
// self-discharge of all drop out. What they share is not the middle group's
// charge, which would carry one group's error into all, but the middle of all
// groups' charges after each one's usual standing is taken off.
func (s *study) compare() {
	for from := 0; from < len(s.usable); {
		to := from + 1
		for to < len(s.usable) && s.epoch(s.usable[to]) == s.epoch(s.usable[from]) {
			to++
		}
		s.compareBetween(s.usable[from:to])
		from = to
	}
}

// epoch counts what was done to the groups before a visit.
func (s *study) epoch(v *visit) (n int) {
	for _, e := range s.events {
		if e.hours <= v.hours {
			n++
		}
	}
	for _, start := range s.starts {
		if start <= v.hours && !math.IsInf(start, 0) {
			n++
		}
	}
	return n
}

// compareBetween works on visits between which nothing was done to the groups.
func (s *study) compareBetween(visits []*visit) {
	levels := s.levels(visits)
	zero := middle(levels)
	rest := make([]float64, s.plant.n)
	for _, v := range visits {
		for k := range rest {
			rest[k] = v.charge[k] - levels[k]
		}
		shared := middle(rest) + zero
		v.below = -shared
		v.offset = nans(s.plant.n)
		for k := range v.offset {
			v.offset[k] = v.charge[k] - shared
			v.errAh[k] *= againstMiddle(len(present(rest)))
		}
	}
}

// levels is where each group usually stands against the middle one, Ah.
func (s *study) levels(visits []*visit) []float64 {
	levels := make([]float64, s.plant.n)
	column := make([]float64, len(visits))
	for k := range levels {
		for j, v := range visits {
			column[j] = v.charge[k] - middle(v.charge)
		}
		levels[k] = middle(column)
	}
	return levels
}

// againstMiddle is how far one reading errs against the middle of n such readings,
// itself one of them, over its own error. The middle's variance is π/2n of one's,
// and 1/n of each reading goes with it.
func againstMiddle(n int) float64 {
	return math.Sqrt(1 - (2-math.Pi/2)/float64(n))
}

// share moves what all groups have in common at a visit once more, now that each
// group's own slope is known: groups that drift would pull the middle with them.
func (s *study) share(list []*track) {
	lines := make([]drawn, len(list))
	slopes := nans(len(list))
	for k, t := range list {
		if lines[k] = t.fit(shape{}); lines[k].ok {
			slopes[k] = lines[k].beta[1]
		}
	}
	slope := middle(slopes)      // a slope of the middle is no slope against it
	at := make([]int, len(list)) // the next reading of each track
	end := s.usable[len(s.usable)-1].hours
	for _, v := range s.usable {
		hours := v.hours - end
		apart := nans(len(list))
		for k, t := range list {
			if at[k] < len(t.hours) && t.hours[at[k]] == hours && lines[k].ok {
				r := t.row(shape{}, lines[k].layout, at[k])
				apart[k] = t.offset[at[k]] - lines[k].value(&r) + slope*hours
			}
		}
		shared := middle(apart)
		for k, t := range list {
			if at[k] < len(t.hours) && t.hours[at[k]] == hours {
				if known(shared) {
					t.offset[at[k]] -= shared
					v.offset[k] -= shared
				}
				at[k]++
			}
		}
	}
}
