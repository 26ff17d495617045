package drill

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// findings says what the runs showed, most urgent first. Faults that end alike
// make one finding.
func (s *study) findings() []finding.Finding {
	list := []finding.Finding{}
	for _, look := range []func() []finding.Finding{
		s.harmByItself, s.notTolerant, s.singleHarm, s.nearHarm, s.pairHarm, s.silentFaults, s.needless,
	} {
		list = append(list, look()...)
	}
	list = joined(list)
	finding.Sort(list)
	return finding.AllBy(list, working.Faults.Run(fmt.Sprintf("read off all runs: %d faults in %d scenes, and their pairs", len(s.faults), len(s.scenes))))
}

// joined makes one finding of those of one rule at one place.
func joined(list []finding.Finding) []finding.Finding {
	out := []finding.Finding{}
	for _, f := range list {
		k := slices.IndexFunc(out, func(g finding.Finding) bool { return g.ID == f.ID && g.Where == f.Where && g.Severity == f.Severity })
		if k < 0 {
			out = append(out, f)
			continue
		}
		g := &out[k]
		g.Found += "; also " + f.Found
		*g = g.By(f.Workings...)
		if g.Mend != f.Mend {
			g.Mend += "; " + f.Mend
		}
	}
	return out
}

// ruleOf names the rule for a kind of harm: "uncovered-pairs-cell-high".
func ruleOf(rule, harm string) string { return rule + "-" + strings.ReplaceAll(harm, " ", "-") }

// place is the path of a part in the rig file: bank for a group, protection for
// what is not found.
func (s *study) place(device string) string {
	if h := s.rig.Heater; h != nil && h.Name == device {
		return "heater"
	}
	for section, all := range named(s.rig) {
		if slices.Contains(all, device) {
			return section + "." + device
		}
	}
	if strings.HasPrefix(device, "group") {
		return "bank"
	}
	return "protection"
}

// harmByItself reports scenes that reach harm, or come near it, with nothing wrong.
func (s *study) harmByItself() []finding.Finding {
	var list []finding.Finding
	mend := s.mendBy(s.cover[[2]int{-1, -1}], "set the devices as on the settings sheet, then drill again")
	for k := range s.base {
		o := &s.base[k]
		switch o.Outcome {
		case Harm:
			list = append(list, finding.Finding{ID: "harm-without-fault", Severity: finding.Stop, Where: s.harmPlace(o.Harm),
				Found:   fmt.Sprintf("in %s, with every part doing as it is set, %s: %s", s.scenes[k].Name, inWords(o.Harm), s.extent(o)),
				Because: "it takes no fault at all; the settings themselves lead there", Mend: mend, Workings: s.ran(o)})
		case Near:
			list = append(list, finding.Finding{ID: "near-without-fault", Severity: finding.Care, Where: "protection",
				Found:   fmt.Sprintf("in %s, with every part doing as it is set, %s", s.scenes[k].Name, s.howNear(o)),
				Because: "no fault is needed to come this near; any one may do the rest", Mend: mend, Workings: s.ran(o)})
		}
	}
	return list
}

// harmPlace is the part of the rig file a kind of harm belongs to.
func (s *study) harmPlace(harm string) string {
	switch {
	case harm == "cell hot" && s.rig.Heater != nil:
		return "heater"
	case harm == "cell high", harm == "frost charge":
		return "charge"
	}
	return "protection"
}

// extent says how far beyond its limit a run went, and how soon.
func (s *study) extent(o *Outcome) string {
	var far string
	switch o.Harm {
	case "cell high":
		far = "the highest comes to " + q.Volts.Fixed(o.HighV, "V", 3)
	case "cell low":
		far = "the lowest comes to " + q.Volts.Fixed(o.LowV, "V", 3)
	case "frost charge":
		far = q.AmpereHours.Text(o.FrostAh, s.units()) + " charged below the frost limit"
	case "cell hot":
		far = "the hottest comes to " + q.Celsius.Text(o.HotC, s.units())
	default:
		far = s.currentOf(o)
	}
	if o.HarmAt > 0 {
		far += ", past the limit after " + Lapse(o.HarmAt)
	}
	return far
}

func (s *study) currentOf(o *Outcome) string {
	if o.PeakShare > 1 {
		return fmt.Sprintf("the hardest driven carries %.1f times its share", o.PeakShare)
	}
	return "nothing interrupts it"
}

// units are those of the rig; any that are not known were refused by the reader.
func (s *study) units() q.System {
	sys, _ := q.ParseSystem(s.rig.About.Units)
	return sys
}

// mendBy names the addition that covers something, or what to do without one.
func (s *study) mendBy(addition, instead string) string {
	switch {
	case addition != "":
		return "tried, and it covers this: " + addition
	case s.o.NoAdditions:
		return "drill with additions, to see what would cover it"
	}
	return instead
}
