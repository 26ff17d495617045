package prove

import "math"

// ohmShare is by how much groups may differ in how much more a long load shows
// than a pulse of 10 s.
const ohmShare = 0.05

// refine fits the groups again with what they share held alike: how far the curve
// lies off near full, and how a long load goes with a pulse. Rest voltages of
// groups differ by millivolts known far better than the curve itself, so that
// this keeps loss and imbalance apart. The errors stay those of the first fit: in
// the curve all groups err together.
func (s *study) refine(groups []groupStudy) {
	shift, ratio, stand := s.shared(groups)
	if len(shift) < 3 {
		return
	}
	middle := middleOf(stand)
	for k := range groups {
		g := &groups[k]
		soc, slope := s.stands(g.restV)
		g.fitter.start = belief{soc + middleOf(shift), math.Hypot(g.meterV/slope, curveShare*(soc-middle))}
		if ohm, sigma := s.groupOhm(k); len(ratio) == len(groups) {
			g.fitter.ohm = belief{middleOf(ratio) * ohm, middleOf(ratio) * math.Hypot(sigma, ohmShare*ohm)}
		}
		first := g.fit
		g.fit = g.fitter.from(first.perAh)
		g.fit.cov = first.cov
	}
}

// shared lists, by group, how far each fit starts from its rest voltage's place on
// the curve, its resistance over that of a pulse, and the place; nothing unless
// every group has a fit and a rest voltage that tells charge.
func (s *study) shared(groups []groupStudy) (shift, ratio, stand []float64) {
	for k := range groups {
		g := &groups[k]
		if !g.fitted || math.IsNaN(g.restV) || g.start.Flat {
			return nil, nil, nil
		}
		soc, _ := s.stands(g.restV)
		shift, stand = append(shift, g.fit.start-soc), append(stand, soc)
		if ohm, _ := s.groupOhm(k); ohm > 0 && g.fit.ohm > 0 {
			ratio = append(ratio, g.fit.ohm/ohm)
		}
	}
	return shift, ratio, stand
}
