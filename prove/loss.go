package prove

import "math"

// groupCapacities returns each group's own capacity between the limits, read along
// its curve.
func (s *study) groupCapacities(groups []groupStudy) []estimate {
	share := s.limitShare()
	list := make([]estimate, len(groups))
	for k, g := range groups {
		if g.why != "" {
			list[k].sigma = math.Inf(1)
			continue
		}
		ah, sigma := g.fit.capacity()
		list[k] = estimate{share * ah, share * sigma}
	}
	return list
}

// limitShare is how much of the curve's charge lies between the limits.
func (s *study) limitShare() float64 {
	return s.kind.Curve.SoC(s.res.High) - s.kind.Curve.SoC(s.res.Low)
}

// losses returns what each group has lost against the best group, or against the
// rated capacity where that is known. Against the best, the error that all groups
// share drops out.
func (s *study) losses(groups []groupStudy, capacity []estimate) []estimate {
	share := s.limitShare()
	list := make([]estimate, len(groups))
	best := -1
	for k := range capacity {
		if capacity[k].known() && (best < 0 || capacity[k].value > capacity[best].value) {
			best = k
		}
	}
	for k, c := range capacity {
		switch {
		case !c.known():
			list[k].sigma = math.Inf(1)
		case s.o.RatedAh > 0:
			list[k] = estimate{s.o.RatedAh - c.value, c.sigma}
		case k == best:
			list[k] = estimate{0, share * groups[k].fit.own() * groups[k].fit.scatter()}
		default:
			own := max(groups[k].fit.own(), groups[best].fit.own())
			list[k] = estimate{capacity[best].value - c.value, share * own * math.Hypot(groups[k].fit.scatter(), groups[best].fit.scatter())}
		}
	}
	return list
}

// nearEnd is how near (V) a group must be to a limit for its place at the end of
// the test to tell more than the fit: there the curve is steep.
const nearEnd = 0.3

// ends tells which group ends a discharge and which would end a charge: the one
// seen nearest the limit, else the one with least charge, or least room, left;
// −1 when neither can be
// told, for which the fit of every group is needed.
func (s *study) ends(groups []groupStudy, fitted bool) (low, high int) {
	low = lowest(groups, func(g *groupStudy) float64 { return g.endV })
	high = lowest(groups, func(g *groupStudy) float64 { return -g.endV })
	discharging := s.window().discharging
	seenLow := discharging && groups[low].endV < s.res.Low+nearEnd
	seenHigh := !discharging && groups[high].endV > s.res.High-nearEnd/2
	switch {
	case seenLow:
	case fitted:
		low = lowest(groups, func(g *groupStudy) float64 { return g.fit.start / g.fit.perAh })
	default:
		low = -1
	}
	switch {
	case seenHigh:
	case fitted:
		high = lowest(groups, func(g *groupStudy) float64 { return s.room(g).value })
	default:
		high = -1
	}
	return low, high
}

// lowest is the index of the group of which the measure is least.
func lowest(groups []groupStudy, measure func(*groupStudy) float64) int {
	at := 0
	for k := range groups {
		if measure(&groups[k]) < measure(&groups[at]) {
			at = k
		}
	}
	return at
}
