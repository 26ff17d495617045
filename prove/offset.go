package prove

import "math"

// curveShare is the doubt of a charge read between two points of a curve: cells
// of one kind differ in slope.
const curveShare = 0.15

// estimate is a number with its standard error.
type estimate struct{ value, sigma float64 }

// known reports whether the number says anything beside its error.
func (r estimate) known() bool { return r.sigma > 0 && !math.IsInf(r.sigma, 0) }

// offsets returns how much charge each group stands behind the fullest: what it
// would still take when the fullest is full. From the rest before the load where
// the curve is steep enough, else from the fit, whose ends may tell what the
// middle does not.
//
//	behind = (1 − s)·C − min[(1 − s)·C]
func (s *study) offsets(groups []groupStudy) []estimate {
	room := make([]estimate, len(groups))
	fullest := -1
	for k := range groups {
		room[k] = s.room(&groups[k])
		if room[k].known() && (fullest < 0 || room[k].value < room[fullest].value) {
			fullest = k
		}
	}
	for k := range room {
		if k == fullest || !room[k].known() {
			continue
		}
		behind := room[k].value - room[fullest].value
		room[k] = estimate{behind, math.Sqrt(room[k].sigma*room[k].sigma + room[fullest].sigma*room[fullest].sigma + curveShare*curveShare*behind*behind)}
	}
	if fullest >= 0 {
		room[fullest].value = 0
	}
	return room
}

// room is how much charge a group had left to full before the load, with the
// error that is its own: what all groups share drops out of the difference.
func (s *study) room(g *groupStudy) estimate {
	if g.why != "" {
		return estimate{sigma: math.Inf(1)}
	}
	ah, _ := g.fit.capacity()
	if !math.IsNaN(g.restV) && !g.start.Flat {
		soc, slope := s.stands(g.restV)
		return estimate{(1 - soc) * ah, ah * g.meterV / slope}
	}
	own := g.fit.own()
	return estimate{(1 - g.fit.start) * ah, ah * own * math.Sqrt(g.fit.cov[0][0])}
}

// stands reads a rest voltage along the curve, carried on beyond its ends, with
// the slope there.
func (s *study) stands(v float64) (soc, slope float64) {
	soc = s.kind.Curve.SoC(v)
	at, slope := along(s.kind.Curve, soc)
	return soc + (v-at)/slope, slope
}

// own is the part of a fit's error that groups of one module do not share. The
// curve errs alike for all; how well it fits tells how alike they are.
func (f *curveFit) own() float64 { return min(max(f.misfit, leastMisfit), 1) }
