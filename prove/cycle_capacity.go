package prove

import (
	"math"

	q "ampstead/quantity"
)

// How a capacity was found.
const (
	howDischarge = "discharge to the limit"
	howCharge    = "charge to the limit"
	howPartial   = "partial, extrapolated along the curve"
	howNone      = "none"
)

const (
	ampGain  = 0.003 // of a current sensor nobody calibrated: its part of a charge
	voltGain = 0.002 // of a voltmeter: its part of an energy
)

// capacities lists every discharge and charge with the capacity it shows.
func (s *study) capacities(spans []span) []Cycle {
	list := s.cyclesOf(spans)
	for k, c := range spans {
		cy := &list[k]
		start, end := s.whole(c, spans)
		s.cut(c, cy, end)
		if cy.Full = start && end; cy.Full {
			cy.CapacityAh, cy.CapacityErr = cy.ChargeAh, math.Hypot(s.chargeErr(c, cy), s.missing(c, spans)*cy.ChargeAh)
		}
	}
	return list
}

// chargeErr is the standard error of an integrated charge, Ah: gain and
// resolution of the current, its offset at rest, and the rows at both ends.
func (s *study) chargeErr(c span, cy *Cycle) float64 {
	hours := (cy.To - cy.From) / 3600
	offset := math.Max(s.ampStep()/math.Sqrt(12), math.Abs(s.offset().amps)) * hours
	first := s.segs[c.first]
	edge := math.Abs(first.MeanA) * (first.own()[0].t - first.points[0].t) / 3600 / math.Sqrt(12)
	return math.Sqrt(square(ampGain*cy.ChargeAh) + square(offset) + square(edge))
}

// ampStep is the resolution of the current, A, where it was seen to change by
// little.
func (s *study) ampStep() float64 {
	if step := s.in.grain.amps.step(); step < 0.02*s.in.scale {
		return step
	}
	return 0
}

func square(x float64) float64 { return x * x }

// missing is the share of the charge that may lie beyond the ends although they
// count as full and empty: a cell short of its limit at rest is not quite full.
func (s *study) missing(c span, spans []span) float64 {
	if c.before >= 0 && spans[c.before].charge != c.charge {
		return 0
	}
	soc := s.socBefore(c)
	if c.charge {
		return 0.3 * math.Max(soc-s.socLow(), 0)
	}
	return 0.3 * math.Max(s.socHigh()-soc, 0)
}

// offset is what the current sensor shows while nothing flows.
type offset struct{ amps, hours float64 }

func (s *study) offset() offset {
	o := offset{}
	ah := 0.0
	for k := range s.segs {
		if seg := &s.segs[k]; seg.Kind == kindRest {
			ah += seg.driftAh
			o.hours += (seg.To - seg.own()[0].t) / 3600
		}
	}
	if o.hours > 0 {
		o.amps = ah / o.hours
	}
	return o
}

// setCapacity takes the capacity of the whole from the latest full discharge,
// else the latest full charge, else the surest extrapolation.
func (s *study) setCapacity() {
	best := -1
	for k := range s.res.Cycles {
		if s.better(k, best) {
			best = k
		}
	}
	r := s.res
	r.CapacityHow = howNone
	if best < 0 {
		return
	}
	c := &r.Cycles[best]
	r.CapacityAh, r.CapacityErr = c.CapacityAh, c.CapacityErr
	r.EnergyWh = c.EnergyWh * c.CapacityAh / c.ChargeAh
	r.EnergyErr = r.EnergyWh * math.Hypot(r.CapacityErr/r.CapacityAh, voltGain)
	switch {
	case !c.Full:
		r.CapacityHow = howPartial
		s.restEnergy(c)
	case c.Kind == kindDischarge:
		r.CapacityHow = howDischarge
	default:
		r.CapacityHow = howCharge
	}
}

// better tells whether a cycle tells more than the best so far.
func (s *study) better(k, best int) bool {
	rank := func(c *Cycle) int {
		switch {
		case c.Full && c.Kind == kindDischarge:
			return 2
		case c.Full:
			return 1
		}
		return 0
	}
	c := &s.res.Cycles[k]
	if c.CapacityAh == 0 || best < 0 {
		return c.CapacityAh > 0
	}
	b := &s.res.Cycles[best]
	if rank(c) != rank(b) {
		return rank(c) > rank(b)
	}
	return c.Full || c.CapacityErr/c.CapacityAh <= b.CapacityErr/b.CapacityAh
}

// restEnergy corrects the energy of an extrapolated capacity: what was not
// drawn lies lower (or higher) on the curve than what was.
func (s *study) restEnergy(c *Cycle) {
	drawn := c.EnergyWh / c.ChargeAh
	mean := float64(s.series) * s.kind.Curve.Energy(s.socLow(), s.socHigh()) / math.Max(s.socHigh()-s.socLow(), 1e-9)
	r := s.res
	missing := math.Max(r.CapacityAh-c.ChargeAh, 0)
	r.EnergyWh = c.EnergyWh + missing*mean
	r.EnergyErr = math.Hypot(r.EnergyWh*math.Hypot(r.CapacityErr/r.CapacityAh, voltGain), missing*math.Abs(mean-drawn))
}

// setEfficiency compares a charge from limit to limit with the discharge that
// followed it within half a day.
func (s *study) setEfficiency(spans []span) {
	const halfDay = 12 * 3600
	for k := range spans {
		b := spans[k].before
		if b < 0 || spans[k].charge || !spans[b].charge {
			continue
		}
		in, out := &s.res.Cycles[b], &s.res.Cycles[k]
		if in.Full && out.Full && out.From-in.To < halfDay {
			if e := out.ChargeAh / in.ChargeAh; e > 0.5 && e <= 1.005 {
				s.res.Efficiency = e
			}
		}
	}
}

func ahText(v float64) string { return q.AmpereHours.Text(v, q.Metric) }
