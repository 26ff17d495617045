package prove

import (
	"fmt"

	"ampstead/finding"
)

// findings is what this stage found wrong or worth knowing, most urgent first.
func (s *study) findings() []finding.Finding {
	list := s.extremeFindings()
	list = append(list, s.groupFindings()...)
	list = append(list, s.wholeFindings()...)
	for _, w := range s.res.Warnings {
		list = append(list, finding.Finding{ID: w.ID, Severity: finding.Care, Where: "log", Found: w.Found, Because: w.Because,
			Mend: "mend the measurement and test again, or read the figures it spoils with that doubt"})
	}
	list = append(list, finding.Finding{ID: "no-history", Severity: finding.Note, Where: "module",
		Found:   "a log of a test tells nothing of the module's history",
		Because: "reuse without recorded lifetime data does not meet IEC 63338:2024",
		Mend:    "keep whatever papers there are with it; look for swelling, leaks and damage, and measure its insulation"})
	for k := range list {
		list[k] = list[k].By(s.workings(&list[k])...)
	}
	finding.Sort(list)
	return list
}

func (s *study) extremeFindings() (list []finding.Finding) {
	m := s.measures()
	if v, ok := m["deepest"]; ok && v.value < deepV {
		f := finding.Finding{ID: "deep-discharge-seen", Severity: finding.Care, Where: "log",
			Found:   fmt.Sprintf("%sthe voltage fell to %.2f V a cell", v.whose, v.value),
			Because: "below 2.0 V copper may begin to dissolve; what it plates can short the cell later",
			Mend:    "charge at a twentieth of the capacity at most, then watch its self-discharge for weeks"}
		if v.value < reversedV {
			f.Severity, f.Mend = finding.Stop, "do not recharge it and do not use it"
		}
		list = append(list, f)
	}
	if v, ok := m["highest"]; ok && v.value > overV {
		f := finding.Finding{ID: "overcharge-seen", Severity: finding.Care, Where: "log",
			Found:   fmt.Sprintf("%sthe voltage rose %.2f V above the limit of %.2f V a cell", v.whose, v.value, s.kind.MaxV.Value),
			Because: "over-charged cells run away at far lower temperature",
			Mend:    "stop charging by the highest group, check the cell kind and the limits given, and take no over-charged module into a vehicle"}
		if v.value > farOverV {
			f.Severity = finding.Stop
		}
		list = append(list, f)
	}
	return list
}

// Voltages that stand in the table of thresholds too.
const (
	deepV, reversedV = 2.0, 1.5
	overV, farOverV  = 0.10, 0.25
)

// weakShare is the share of capacity from which a shortfall is worth a finding;
// common practice, no source.
const weakShare = 0.03

func (s *study) groupFindings() (list []finding.Finding) {
	if len(s.res.Groups) < 2 {
		return nil
	}
	best := 0.0
	for _, g := range s.res.Groups {
		best = max(best, g.CapacityAh)
	}
	for _, g := range s.res.Groups {
		where := fmt.Sprintf("group %d", g.Number)
		if g.OffsetAh > 2*g.OffsetErr && g.OffsetAh > 0.02*g.CapacityAh {
			list = append(list, finding.Finding{ID: "imbalance", Severity: finding.Care, Where: where,
				Found:   fmt.Sprintf("it stands %.1f ± %.1f Ah below the fullest group", g.OffsetAh, g.OffsetErr),
				Because: "the string ends its discharge early by that much; balancing brings it back",
				Mend:    "charge this group alone, or let the balancer work at the top, then test again"})
		}
		if short := best - g.CapacityAh; short > 2*g.LostErr && short > weakShare*best {
			list = append(list, finding.Finding{ID: "weak-group", Severity: finding.Care, Where: where,
				Found:   fmt.Sprintf("it holds %.1f ± %.1f Ah, %.1f Ah less than the best group", g.CapacityAh, g.CapacityErr, short),
				Because: "that is lost capacity: balancing does not bring it back",
				Mend:    "count on this group's capacity for the whole, or replace it"})
		}
		if g.LeakMA != nil && *g.LeakMA > 3*g.LeakErrMA {
			list = append(list, finding.Finding{ID: "group-leak", Severity: finding.Care, Where: where,
				Found:   fmt.Sprintf("it loses %.2f ± %.2f mA more than the median group", *g.LeakMA, g.LeakErrMA),
				Because: "a group that empties faster drifts away from the others, and a growing leak is an internal short in the making",
				Mend:    "read the rest voltages again over 14 to 30 days; replace the group if the leak grows"})
		}
	}
	return list
}

// faded says what all groups together have lost against the rated capacity.
func (s *study) faded() []finding.Finding {
	rated, now := s.o.RatedAh, s.res.CapacityAh
	if rated <= 0 || now <= 0 || !(rated-now > 2*s.res.CapacityErr && rated-now > weakShare*rated) {
		return nil
	}
	return []finding.Finding{{ID: "faded", Severity: finding.Note, Where: "module",
		Found:   fmt.Sprintf("it gives %.1f ± %.1f Ah, %.0f %% of its rated %.4g Ah", now, s.res.CapacityErr, 100*now/rated, rated),
		Because: "what age and use took from every group does not come back; what balancing would bring is said apart",
		Mend:    "reckon with the measured capacity, not the rated one"}}
}

func (s *study) wholeFindings() (list []finding.Finding) {
	if s.series > 1 && s.groups == 0 {
		list = append(list, finding.Finding{ID: "no-group-voltages", Severity: finding.Care, Where: "log",
			Found:   fmt.Sprintf("the voltages of the %d groups were not logged", s.series),
			Because: "the weakest group sets the capacity and the limits, and the sum hides it: a group may pass its limit unseen",
			Mend:    "log every group, and stop the test by the first one at its limit"})
	}
	for _, g := range s.res.Groups {
		if g.Unknown != "" {
			return append(list, finding.Finding{ID: "groups-not-told", Severity: finding.Note, Where: "log",
				Found:   "capacity, offset and loss of the groups are not told: " + g.Unknown,
				Because: "a guess would look like a measurement",
				Mend:    "test from full to the first group's low limit, with an hour of rest before"})
		}
	}
	return append(append(list, s.faded()...), s.balanceFinding()...)
}

// balanceFinding says what the string would give once balanced.
func (s *study) balanceFinding() []finding.Finding {
	now, then := s.stringAh()
	if !(then-now > 0.02*then) {
		return nil
	}
	return []finding.Finding{{ID: "balance-first", Severity: finding.Note, Where: "module",
		Found:   fmt.Sprintf("the string gives about %.1f Ah as it stands and would give %.1f Ah balanced", now, then),
		Because: "the difference is imbalance, not loss: it comes back",
		Mend:    "balance at the top before the module is judged or built in"}}
}

// stringAh is what the string gives from the fullest group full to the first one
// empty, as it stands and once balanced at the top.
func (s *study) stringAh() (now, then float64) {
	for k, g := range s.res.Groups {
		if k == 0 || g.CapacityAh-g.OffsetAh < now {
			now = g.CapacityAh - g.OffsetAh
		}
		if k == 0 || g.CapacityAh < then {
			then = g.CapacityAh
		}
	}
	return now, then
}
