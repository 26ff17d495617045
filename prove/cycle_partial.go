package prove

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/physics/measure"
	q "ampstead/quantity"
)

const (
	leastChange = 0.15 // of charge: less tells no capacity
	worstShare  = 0.25 // standard error over capacity beyond which none is given
	mostParts   = 40   // parts of a long log that are extrapolated, the latest
	unseenShare = 0.06 // of the capacity that may be left when a group nobody logged ends a discharge
	flatEdge    = 0.02 // of charge: this close to the flat part of a curve counts as on it
)

// extrapolateParts finds what the latest discharges and charges that were not
// whole say of capacity.
func (s *study) extrapolateParts(spans []span) {
	if s.leads {
		return
	}
	left := mostParts
	for k := len(spans) - 1; k >= 0 && left > 0; k-- {
		if cy := &s.res.Cycles[k]; !cy.Full && cy.ChargeAh > leastChange/2*s.sizeAh() {
			s.extrapolate(spans[k], spans, cy)
			left--
		}
	}
}

// extrapolate lays the part along the cell's curve, every group by itself, and
// carries it on to the limits. In a discharge the first group to be empty ends it.
func (s *study) extrapolate(c span, spans []span, cy *Cycle) {
	w := s.windowOf(c, cy)
	start, end := s.whole(c, spans)
	var best part
	for g := range max(s.groups, 1) {
		found := s.fitGroup(g, w)
		if !found.fitted {
			return
		}
		p := s.partOf(&found, c, start)
		if s.onFlat(p.from, start) || s.onFlat(p.to, end) {
			s.warnFlat()
			return
		}
		if found.fit.offCurve() || p.change() < leastChange || !(p.capacity > 0) {
			return
		}
		if g == 0 || p.capacity < best.capacity {
			best = p
		}
	}
	best.sigma = math.Sqrt(square(best.sigma) + square(s.chargeErr(c, cy)/best.change()) + square(best.capacity*best.changeErr/best.change()))
	if best.sigma > worstShare*best.capacity {
		return
	}
	if !c.charge && start && s.groups == 0 && s.series > 1 && best.capacity-cy.ChargeAh < unseenShare*best.capacity {
		s.endedUnseen(c, cy, best.capacity-cy.ChargeAh)
		return
	}
	cy.CapacityAh, cy.CapacityErr = best.capacity, best.sigma
	s.apply(measure.CapacityPair, figure.N("charge", cy.ChargeAh), figure.N("charge-error", s.chargeErr(c, cy)),
		figure.N("change", best.change()), figure.N("change-error", best.sigma/best.capacity*best.change()))
}

// endedUnseen takes a discharge as one to the limit that ended a little above it
// on average: without group voltages nobody sees which group ended it. rest is
// what the mean cell still held, Ah.
func (s *study) endedUnseen(c span, cy *Cycle, rest float64) {
	cy.Full, cy.CapacityAh = true, cy.ChargeAh
	cy.CapacityErr = math.Hypot(s.chargeErr(c, cy), rest/2)
	s.warn("groups-unseen", fmt.Sprintf("the discharge ended at %s a cell on average, with about %s left in the mean cell; the log has no group voltages",
		q.Volts.Text(s.meanCell(s.segs[c.last].end()), q.Metric), ahText(math.Max(rest, 0))),
		"It is taken that a group had reached its limit there. Log the groups to see which, and whether.")
}

// windowOf is the stretch of a span; of a module without group voltages it is
// that of its mean cell.
func (s *study) windowOf(c span, cy *Cycle) window {
	w := window{s.between(cy.From, cy.To), !c.charge}
	if s.groups > 0 || s.series == 1 {
		return w
	}
	segs := append([]segment(nil), w.segs...)
	for k := range segs {
		segs[k].points = append([]sample(nil), segs[k].points...)
		for i := range segs[k].points {
			segs[k].points[i].v = s.meanCell(segs[k].points[i])
		}
	}
	w.segs = segs
	return w
}

// part is what one group's part says: where it stood on the curve at both ends,
// and the capacity between the limits.
type part struct {
	from, to        float64
	changeErr       float64 // of the change between them, when the curve errs by its doubt at either end
	capacity, sigma float64
}

func (p *part) change() float64 { return math.Abs(p.to - p.from) }

// partOf carries a fit on to the limits. capacity = (top − bottom)/perAh; its
// error follows from those of the fit and of the curve where it is carried to.
func (s *study) partOf(found *groupStudy, c span, start bool) part {
	fit, last := &found.fit, found.fitter.points[len(found.fitter.points)-1]
	p := part{from: fit.start, to: fit.start + last.q*fit.perAh}
	p.changeErr = math.Hypot(s.socDoubt(&found.fitter, p.from, 0), s.socDoubt(&found.fitter, p.to, fit.ohm*last.u))
	if c.charge {
		bottom := s.socLow()
		if start {
			bottom = p.from
		}
		p.capacity = (s.socHigh() - bottom) / fit.perAh
		p.sigma = p.capacity * math.Sqrt(fit.cov[1][1]) / fit.perAh
		return p
	}
	drop := math.Min(fit.ohm*last.u, 0)
	bottom := math.Min(s.kind.Curve.SoC(s.res.Low-drop), p.to)
	_, slope := along(s.kind.Curve, bottom)
	grad := [3]float64{1, 0, last.u / slope}
	top := p.from
	if !start {
		top, grad[0] = s.socHigh(), 0
	}
	p.capacity = (top - bottom) / fit.perAh
	grad[1] = -p.capacity
	variance := square(s.socDoubt(&found.fitter, bottom, drop))
	for i := range grad {
		for j := range grad {
			variance += grad[i] * fit.cov[i][j] * grad[j]
		}
	}
	p.sigma = math.Sqrt(variance) / fit.perAh
	return p
}

// offCurve tells a fit that cannot be carried on: it is another kind of cell.
func (f *curveFit) offCurve() bool {
	return f.misfit > misfitLimit || f.beyond() > beyondLimit || f.misfit > 1 && f.rmsV > rmsLimitV+0.1*f.drop
}

// socDoubt is how far a state of charge on the curve may be wrong because the
// curve and the drop taken out are. A fit takes errors along the curve for
// independent and makes light of this.
func (s *study) socDoubt(f *fitter, soc, drop float64) float64 {
	_, slope := along(s.kind.Curve, soc)
	return f.sigma(slope, drop) / slope
}

// onFlat tells whether an end lies where the curve tells no charge. An end known
// to be full or empty needs no curve.
func (s *study) onFlat(soc float64, known bool) bool {
	return !known && s.kind.FlatTo > 0 && soc > s.kind.FlatFrom-flatEdge && soc < s.kind.FlatTo+flatEdge
}

// warnFlat says once that voltage tells no charge here.
func (s *study) warnFlat() {
	for _, w := range s.res.Warnings {
		if w.ID == "flat-curve" {
			return
		}
	}
	s.warn("flat-curve", "an end of a part discharge or charge lies where the rest voltage of "+s.kind.Name+" hardly changes with charge",
		"No capacity is told from the part: go from full to the low limit.")
}
