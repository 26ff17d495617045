package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/working"
)

// roundAmp is how far a current may go over a limit before it counts, A.
const roundAmp = 0.5

// chargeRate compares all sources together with what the cells take.
func chargeRate(s *study) []finding.Finding {
	f := s.flows
	if len(f.limits) == 0 {
		return nil
	}
	cold := s.cell.ChargeRate(s.warm.lock+s.warm.lockErr) * s.info.Capacity
	_, coldWay := s.frosty()
	switch {
	case f.today > f.allowed+roundAmp:
		return []finding.Finding{s.by(mistake(s.cooled(), "charge",
			fmt.Sprintf("all sources together charge with %s; the cells take %s when warm", s.amps(f.today), s.amps(f.allowed)),
			"charged faster they heat up and plate lithium, and nothing here cools them", s.mendCurrents()).By(s.sources()), append(s.shares(), s.chargeLimitUse())...)}
	case !s.acid() && coldWay && f.today > cold+roundAmp:
		return []finding.Finding{s.by(mistake(finding.Note, "charge",
			fmt.Sprintf("all sources together charge with %s; just above the frost lock, at %s, the cells should take no more than %s", s.amps(f.today), s.degrees(s.warm.lock+s.warm.lockErr), s.amps(cold)),
			"the colder a cell, the slower it takes charge; what does not fit in plates as metal",
			fmt.Sprintf("on cold mornings use one source at a time, or warm the bank to %s first", s.degrees(s.warmEnough()))).By(s.sources()),
			s.chargeLimitAt(s.warm.lock+s.warm.lockErr), s.chargeLimitAt(s.warmEnough()), s.warm.hows[0])}
	}
	return nil
}

// warmEnough is the lowest temperature, in whole kelvins above the frost lock, at
// which the cells take what all sources give.
func (s *study) warmEnough() float64 {
	t := s.warm.lock
	for t < s.warm.hotStop && s.cell.ChargeRate(t)*s.info.Capacity < s.flows.today-roundAmp {
		t++
	}
	return t
}

// cooled is how much a current above the cell's rate matters.
func (s *study) cooled() finding.Severity {
	if c := s.rig.Bank.Cooling; c == "fan" || c == "liquid" {
		return finding.Note
	}
	return finding.Care
}

func (s *study) mendCurrents() string {
	mend := "limit "
	for k := range s.rig.Charge {
		if k > 0 {
			mend += ", "
		}
		mend += s.rig.Charge[k].Name + " to " + s.amps(s.flows.share[k])
	}
	return mend
}

// shares explains what each source is limited to.
func (s *study) shares() []figure.Use {
	var uses []figure.Use
	for k := range s.rig.Charge {
		uses = append(uses, s.shareUse(k))
	}
	return uses
}

// sources are the currents the charge sources are limited to today.
func (s *study) sources() finding.Working {
	var list []finding.Value
	for k := range s.rig.Charge {
		list = append(list, working.Of(s.rig.Charge[k].Name, s.flows.set[k], q.Amperes))
	}
	w := working.Stated(list...)
	w.Outputs = []finding.Value{working.Of("together", s.flows.today, q.Amperes)}
	return w
}

func dischargeRate(s *study) []finding.Finding {
	allowed := s.cell.DischargeRateAt(25) * s.info.Capacity
	if s.flows.discharge <= allowed+roundAmp {
		return nil
	}
	return []finding.Finding{s.by(mistake(s.cooled(), "inverters",
		fmt.Sprintf("everything on the bank can draw %s at full power; the cells give %s for long", s.amps(s.flows.discharge), s.amps(allowed)),
		"drawn harder they heat up and sag, and nothing here cools them", "limit the inverter, or do not run the largest loads together"), s.flows.drawn,
		s.figures.Use(cell.DischargeLimit, figure.T("cell", s.cell.Name), figure.N("capacity", s.info.Capacity)))}
}
