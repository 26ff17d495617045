package fit

import (
	"fmt"

	"ampstead/finding"
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
		return []finding.Finding{mistake(s.cooled(), "charge",
			fmt.Sprintf("all sources together charge with %s; the cells take %s when warm", s.amps(f.today), s.amps(f.allowed)),
			"charged faster they heat up and plate lithium, and nothing here cools them", s.mendCurrents())}
	case !s.acid() && coldWay && f.today > cold+roundAmp:
		return []finding.Finding{mistake(finding.Note, "charge",
			fmt.Sprintf("all sources together charge with %s; just above the frost lock, at %s, the cells should take no more than %s", s.amps(f.today), s.degrees(s.warm.lock+s.warm.lockErr), s.amps(cold)),
			"the colder a cell, the slower it takes charge; what does not fit in plates as metal",
			fmt.Sprintf("on cold mornings use one source at a time, or warm the bank to %s first", s.degrees(s.warmEnough())))}
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

func dischargeRate(s *study) []finding.Finding {
	allowed := s.cell.DischargeRateAt(25) * s.info.Capacity
	if s.flows.discharge <= allowed+roundAmp {
		return nil
	}
	return []finding.Finding{mistake(s.cooled(), "inverters",
		fmt.Sprintf("everything on the bank can draw %s at full power; the cells give %s for long", s.amps(s.flows.discharge), s.amps(allowed)),
		"drawn harder they heat up and sag, and nothing here cools them", "limit the inverter, or do not run the largest loads together")}
}
