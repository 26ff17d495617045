package prove

import (
	"fmt"
	"slices"
)

const (
	yes    = "yes"
	partly = "partly"
	no     = "no"
)

// steps holds the evaluation of a repurposed battery, as UL 1974 is commonly
// summarised, with IEC 63338 and IEC 63330-1, against what this log tells.
func (s *study) steps() []Step {
	return []Step{
		{"history and documents: origin, age, events, the maker's limits", no,
			"no log of a test tells it. A module without recorded history does not meet IEC 63338:2024, whatever was measured; UL 1974 (second edition) bars parts past the maker's expiry date"},
		{"visual examination: swelling, leaks, corrosion, damage", no, "look at every cell, joint and seal before and after the test"},
		s.arrival(),
		{"insulation: no path from the cells to the case", no, "measure between each pole and the case with an insulation tester"},
		s.capacityStep(),
		s.resistanceStep(),
		{"control and protection: disconnects, fuses, balancing, temperature sensors", no, "try each one before use"},
		s.fullCycle(),
		s.selfDischarge(),
		s.matching(),
		{"marking and records: rating, date, who tested it", no, "keep this report and the log with the module, and mark it with the date and the capacity"},
		{"requirements and procedure for used batteries (IEC 63330-1)", no, "a procedure of its own; this test covers a part of what it judges"},
	}
}

func (s *study) arrival() Step {
	const what = "rest voltage on arrival"
	if len(s.segs) > 0 && !s.segs[0].load() {
		return Step{what, partly, "the log begins at rest; whether that is how the module arrived it does not tell"}
	}
	return Step{what, no, "the log begins under load"}
}

func (s *study) capacityStep() Step {
	const what = "capacity check"
	switch {
	case s.res.CapacityAh == 0:
		return Step{what, no, "no discharge or charge that shows it"}
	case slices.ContainsFunc(s.res.Cycles, func(c Cycle) bool { return c.Full }):
		return Step{what, yes, fmt.Sprintf("%.1f ± %.1f Ah, %s", s.res.CapacityAh, s.res.CapacityErr, s.res.CapacityHow)}
	}
	return Step{what, partly, fmt.Sprintf("%.1f ± %.1f Ah, %s", s.res.CapacityAh, s.res.CapacityErr, s.res.CapacityHow)}
}

func (s *study) resistanceStep() Step {
	const what = "internal resistance check"
	switch {
	case s.res.Resistance == 0:
		return Step{what, no, "no step of current that shows it"}
	case s.series > 1 && s.medianOhm() == 0:
		return Step{what, partly, fmt.Sprintf("%.2f mΩ of the whole; not group by group", 1000*s.res.Resistance)}
	}
	return Step{what, yes, fmt.Sprintf("%.2f mΩ of the whole", 1000*s.res.Resistance)}
}

func (s *study) fullCycle() Step {
	const what = "full charge and discharge with temperature watched"
	full := map[string]bool{}
	for _, c := range s.res.Cycles {
		full[c.Kind] = full[c.Kind] || c.Full
	}
	both := full["charge"] && full["discharge"]
	switch {
	case both && s.res.RiseK != nil:
		return Step{what, yes, fmt.Sprintf("both ways, warmed by %.1f K", *s.res.RiseK)}
	case both:
		return Step{what, partly, "both ways, but no temperature was logged"}
	case full["charge"] || full["discharge"]:
		return Step{what, partly, "one way only"}
	}
	return Step{what, no, "neither a full charge nor a full discharge"}
}

func (s *study) selfDischarge() Step {
	const what = "self-discharge"
	told := Step{what, no, "no rest of twelve hours or more; 14 to 30 days tell it well"}
	for _, r := range s.res.Rests {
		switch {
		case r.LeakMA > 0 && !r.Bound:
			return Step{what, yes, fmt.Sprintf("%.1f mA in %.0f h of rest", r.LeakMA, r.Hours)}
		case r.LeakMA > 0:
			told = Step{what, partly, fmt.Sprintf("at most %.1f mA, from %.0f h of rest", r.LeakMA, r.Hours)}
		}
	}
	return told
}

func (s *study) matching() Step {
	const what = "grading and matching"
	for _, g := range s.res.Groups {
		if len(s.res.Groups) > 1 && g.CapacityAh > 0 {
			return Step{what, yes, "every group's capacity, charge and resistance stand beside one another"}
		}
	}
	if s.series > 1 && s.groups == 0 {
		return Step{what, no, "the voltages of the groups were not logged"}
	}
	return Step{what, partly, "graded as a whole"}
}
