package prove

import (
	"fmt"
	"math"
	"slices"
)

// toldShare is the error of a capacity, as a share of it, beyond which it is not
// told.
const toldShare = 0.25

// tellable finds which groups' capacity, offset and loss can be had and says of
// the others why not. It reports whether all can.
func (s *study) tellable(groups []groupStudy) bool {
	all := true
	for k := range groups {
		g := &groups[k]
		g.why = s.whyNot(g)
		all = all && g.why == ""
	}
	return all
}

// whyNot is empty for a group that can be told.
func (s *study) whyNot(g *groupStudy) string {
	switch {
	case s.leads:
		return "the voltage was sensed through wires that carry current"
	case !g.fitted:
		return "too few readings under load to lay a group along the cell's curve"
	case s.kind.FlatTo > 0 && !s.leavesFlat(g):
		s.warnOnce("flat-curve", "the test does not leave the flat part of the curve at both ends",
			"voltage tells no charge there: capacity, offset and loss of such groups are not told")
		return "the test does not leave the flat part of the curve at both ends"
	}
	ah, sigma := g.fit.capacity()
	switch {
	case sigma < toldShare*ah:
		return ""
	case g.strange:
		return "the groups do not lie along this cell's curve"
	}
	return fmt.Sprintf("too little of the curve was seen: %.0f to %.0f %% of charge", 100*max(0, g.fit.from), 100*min(1, g.fit.to))
}

// leavesFlat reports whether a group's voltage, the drop under load taken off, was
// seen clear of the flat part of its curve above and below, and the fit agrees.
func (s *study) leavesFlat(g *groupStudy) bool {
	if g.fit.from > s.kind.FlatFrom || g.fit.to < s.kind.FlatTo {
		return false
	}
	doubt := s.kind.RestDoubtV.Value
	high, low := math.Inf(-1), math.Inf(1)
	if !math.IsNaN(g.restV) {
		high, low = g.restV, g.restV
	}
	for _, p := range g.fitter.points {
		rest := p.v - g.fit.ohm*p.u
		high, low = max(high, rest), min(low, rest)
	}
	return high > s.kind.Curve.Voltage(s.kind.FlatTo)+doubt && low < s.kind.Curve.Voltage(s.kind.FlatFrom)-doubt
}

// warnOnce warns unless the log has that fault already.
func (s *study) warnOnce(id, found, because string) {
	if !slices.ContainsFunc(s.res.Warnings, func(w Warning) bool { return w.ID == id }) {
		s.warn(id, found, because)
	}
}

// Beyond these residuals the log is of another cell than the curve.
const (
	misfitLimit = 2     // expected errors
	rmsLimitV   = 0.025 // V, beside a tenth of the drop under load, where more than expected
	beyondLimit = 0.08  // of the charge, past empty or full
)

// doubtCurve warns, and widens the errors, when the groups do not lie along the
// curve.
func (s *study) doubtCurve(groups []groupStudy) {
	if s.leads {
		return // nothing would lie along it
	}
	worst, at := 0.0, -1
	for k := range groups {
		g := &groups[k]
		if !g.fitted {
			continue
		}
		f := &g.fit
		over := max(f.misfit/misfitLimit, f.beyond()/beyondLimit)
		if f.misfit > 1 {
			over = max(over, f.rmsV/(rmsLimitV+0.1*f.drop))
		}
		if over > 1 {
			f.widen(over)
			g.strange = true
			if over > worst {
				worst, at = over, k
			}
		}
	}
	if at < 0 {
		return
	}
	s.warn("curve-mismatch", fmt.Sprintf("group %d lies %.0f mV off the curve of %s on average (expected about %.0f mV)",
		at+1, 1000*groups[at].fit.rmsV, s.kind.Name, 1000*groups[at].fit.rmsV/groups[at].fit.misfit),
		"it may be another kind of cell, or a voltage is measured wrong; capacity, offset and loss by the curve are doubtful")
}
