package wire

import (
	"fmt"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// eachSwitch checks every contactor.
func (s *study) eachSwitch(check func(c Contactor) []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for _, c := range s.res.Contactors {
		list = append(list, finding.AllBy(check(c), append([]finding.Working{working.Row("the contactor "+c.Name, c, "current_a", "continuous_a", "surge_a", "break_a", "break_needed_a", "discharge_a", "charge_a"),
			working.Found("the bank charged to its top", working.Of("highest voltage", s.res.TopV, q.Volts))}, working.Uses(c.How...)...)...)...)
	}
	return list
}

func contactorCurrent(s *study) []finding.Finding {
	return s.eachSwitch(func(c Contactor) []finding.Finding {
		need := fmt.Sprintf("use one that carries %s or more with the cable bolted to it", s.amps(c.CurrentA))
		switch {
		case c.ContinuousA == 0:
			return []finding.Finding{mistake(finding.Note, c.Path+".continuous", c.Name+" does not say what it carries for long",
				fmt.Sprintf("it sees %s", s.amps(c.CurrentA)), need)}
		case c.ContinuousA < c.CurrentA:
			return []finding.Finding{mistake(finding.Stop, c.Path+".continuous", fmt.Sprintf("%s carries %s; it sees %s for long", c.Name, s.amps(c.ContinuousA), s.amps(c.CurrentA)),
				"hot contacts weld, and a welded contactor no longer disconnects", need)}
		}
		return nil
	})
}

func contactorBreak(s *study) []finding.Finding {
	return s.eachSwitch(func(c Contactor) []finding.Finding {
		need := fmt.Sprintf("use one that interrupts %s at %s dc", s.amps(c.BreakNeedA), volts(s.res.TopV))
		switch {
		case c.BreakA == 0:
			return []finding.Finding{mistake(finding.Note, c.Path+".break", c.Name+" does not say what it can interrupt",
				fmt.Sprintf("it may be told to open at %s", s.amps(c.BreakNeedA)), need)}
		case c.BreakA < c.BreakNeedA:
			return []finding.Finding{mistake(finding.Care, c.Path+".break",
				fmt.Sprintf("%s interrupts %s; up to %s may flow when it is told to open", c.Name, s.amps(c.BreakA), s.amps(c.BreakNeedA)),
				"the current of a hard start, and any the main fuse lets pass, may draw an arc that does not go out", need)}
		}
		return nil
	})
}

func contactorPolarised(s *study) []finding.Finding {
	return s.eachSwitch(func(c Contactor) []finding.Finding {
		if !c.Polarised || c.Charge == 0 || c.Discharge == 0 {
			return nil
		}
		return []finding.Finding{mistake(finding.Care, c.Path+".polarised",
			fmt.Sprintf("%s breaks one direction better; it sees %s charging and %s drawing", c.Name, s.amps(c.Charge), s.amps(c.Discharge)),
			"in reverse a polarised contactor breaks a few times where it breaks thousands forward",
			"use one that is not polarised")}
	})
}

func noPreCharge(s *study) []finding.Finding {
	p := s.res.PreCharge
	if p == nil || p.GivenOhm > 0 {
		return nil
	}
	return []finding.Finding{by(mistake(finding.Care, "protection.contactors."+p.Contactor+".pre_charge",
		fmt.Sprintf("%s closes onto %s of empty capacitors: about %s in the first instant", p.Contactor, q.Farads.Text(p.CapacitanceF, s.sys), kiloamps(p.WithoutA)),
		"closing on empty capacitors welds contacts: fifty times instead of fifty thousand, on one data sheet",
		fmt.Sprintf("fill them first through %s (pulse of %s) for %s, with the inverter switched off, and end it by a timer", q.Ohms.Text(p.Ohm, s.sys), q.Joules.Text(p.PulseRatingJ, s.sys), q.Seconds.Text(2*p.TimeS, s.sys))), p.How, s.preChargeRow(p))}
}

// preChargeRow is what was reckoned of filling the capacitors.
func (s *study) preChargeRow(p *PreCharge) finding.Working {
	w := working.Row("the pre-charge of "+p.Contactor, p, "capacitance_f", "resistance_ohm", "pulse_rating_j", "time_s", "closing_a", "without_a", "fraction")
	w.Outputs = append(w.Outputs, working.Of("twice the time", 2*p.TimeS, q.Seconds))
	return w
}

func preChargeShort(s *study) []finding.Finding {
	p := s.res.PreCharge
	if p == nil || p.GivenOhm == 0 {
		return nil
	}
	c := s.feeding()
	path := "protection.contactors." + p.Contactor + ".pre_charge_time"
	switch t := or(c.PreChargeTime, 0); {
	case c.PreChargeTime == nil:
		return []finding.Finding{by(mistake(finding.Note, path, "how long the resistor is on is not given",
			fmt.Sprintf("it takes %s to 95 %%", q.Seconds.Text(p.TimeS, s.sys)), "set the timer to twice that, and let it end the pre-charge within ten seconds"), p.How, s.preChargeRow(p))}
	case t < p.TimeS:
		return []finding.Finding{by(mistake(finding.Care, path,
			fmt.Sprintf("the contactor closes after %s; the capacitors take %s to 95 %%", q.Seconds.Text(t, s.sys), q.Seconds.Text(p.TimeS, s.sys)),
			"what is left closes as a current that wears the contacts", fmt.Sprintf("wait %s, or use a smaller resistor", q.Seconds.Text(2*p.TimeS, s.sys))), p.How, s.preChargeRow(p), working.Stated(working.Of("pre-charge time", t, q.Seconds)))}
	}
	return nil
}
