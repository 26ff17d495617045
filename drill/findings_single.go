package drill

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/finding"
)

// notTolerant sums up that one fault is enough.
func (s *study) notTolerant() []finding.Finding {
	if s.out.Tolerant {
		return nil
	}
	faults, runs := map[string]bool{}, 0
	for _, h := range s.failures() {
		if h.a >= 0 {
			faults[s.faults[h.a].Name] = true
			runs++
		}
	}
	if runs == 0 {
		return nil
	}
	besides := ""
	if slices.ContainsFunc(s.base, func(o Outcome) bool { return o.Outcome == Harm }) {
		besides = ", beside the scenes that reach harm by themselves"
	}
	return []finding.Finding{{ID: "no-single-fault-tolerance", Severity: finding.Stop, Where: "protection",
		Found:   fmt.Sprintf("%d of %d single faults bring a cell to harm, in %d of %d runs%s", len(faults), len(s.faults), runs, len(s.out.Single), besides),
		Because: "one part that fails must not be enough: each has to be stopped by another that shares neither its sensor, its logic nor its switch",
		Mend:    "cover the faults below one by one, the least additions are named with them, and drill again"}}
}

// alikeRuns are runs of single faults that came to the same and have the same
// mend, or, where nothing mends them, are of one kind.
type alikeRuns struct {
	harm, cover, kind string
	runs              []harmRun
}

func (s *study) alike(runs []harmRun) []alikeRuns {
	var list []alikeRuns
	for _, h := range runs {
		if h.a < 0 {
			continue
		}
		a := alikeRuns{harm: h.out.Harm, cover: s.cover[[2]int{h.a, -1}]}
		if a.cover == "" {
			a.kind = s.faults[h.a].Kind
		}
		k := slices.IndexFunc(list, func(b alikeRuns) bool { return a.harm == b.harm && a.cover == b.cover && a.kind == b.kind })
		if k < 0 {
			k = len(list)
			list = append(list, a)
		}
		list[k].runs = append(list[k].runs, h)
	}
	return list
}

// worst is the gravest of some runs.
func worst(runs []harmRun) harmRun {
	w := runs[0]
	for _, h := range runs {
		if graver(h.out, w.out) {
			w = h
		}
	}
	return w
}

// singleHarm makes one finding of each kind of fault that alone reaches harm.
func (s *study) singleHarm() []finding.Finding {
	var list []finding.Finding
	for _, a := range s.alike(s.failures()) {
		w := worst(a.runs)
		list = append(list, finding.Finding{ID: ruleOf("single-fault", a.harm), Severity: finding.Stop, Where: s.place(s.faults[w.a].Device),
			Found: fmt.Sprintf("%s: %s; worst in %s with %s, %s", s.list(a.runs), inWords(a.harm),
				s.scenes[w.scene].Name, s.faults[w.a].Name, s.extent(&w.out)),
			Because: "nothing else stops it in time" + warned(w.out),
			Mend:    s.mendBy(s.cover[[2]int{w.a, -1}], "no addition that was tried covers it: exchange the part for one that fails the harmless way, or do without it"), Workings: s.ran(&w.out)})
	}
	return list
}

// warned says what a person would have had of it.
func warned(o Outcome) string {
	switch {
	case o.ReactS > 0:
		return ", and from the first sign a person has " + Lapse(o.ReactS)
	case o.AlarmAt < 0:
		return ", and nothing warns"
	}
	return ", and the first sign comes too late"
}

// list names the faults of some runs, the first few.
func (s *study) list(runs []harmRun) string {
	var all []string
	for _, h := range runs {
		if name := s.faults[h.a].Name; !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return few(all)
}

// few joins names and counts those beyond the third.
func few(all []string) string {
	const most = 3
	text := strings.Join(all[:min(most, len(all))], "; ")
	if more := len(all) - most; more > 0 {
		text += fmt.Sprintf("; and %d more", more)
	}
	return text
}
