package drill

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/circuit"
	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
)

// singlesWith are the runs of single faults with a verdict that the scene by
// itself does not have.
func (s *study) singlesWith(v Verdict) []harmRun {
	var list []harmRun
	for f := range s.single {
		for scene, o := range s.single[f] {
			if o.Outcome == v && s.base[scene].Outcome != v {
				list = append(list, harmRun{f, -1, scene, o})
			}
		}
	}
	return list
}

// nearHarm reports single faults after which too little is left.
func (s *study) nearHarm() []finding.Finding {
	var list []finding.Finding
	for _, a := range s.alike(s.singlesWith(Near)) {
		w := worst(a.runs)
		list = append(list, finding.Finding{ID: "near-harm", Severity: finding.Care, Where: s.place(s.faults[w.a].Device),
			Found:   fmt.Sprintf("%s: no cell comes to harm, but in %s %s", s.list(a.runs), s.scenes[w.scene].Name, s.howNear(&w.out)),
			Because: "with a device at the edge of its accuracy, or a colder or longer day, it would have been harm",
			Mend:    "set the last layer farther from harm, or use a finer device; the margins show how far each set-point may drift", Workings: s.ran(&w.out)})
	}
	return list
}

// howNear says what brought a run near harm.
func (s *study) howNear(o *Outcome) string {
	l := &s.limits
	switch {
	case l.highV-o.HighV < l.nearHigh, o.LowV-l.lowV < l.nearLow:
		return fmt.Sprintf("only %s are left, less than the tolerance of the last layer", q.Volts.Fixed(o.MarginMV/1000, "mV", 0))
	case o.FrostAh > 0:
		return fmt.Sprintf("%s go in below the frost limit", q.AmpereHours.Text(o.FrostAh, s.units()))
	}
	return fmt.Sprintf("the hottest comes to %s, with the limit at %s", q.Celsius.Text(o.HotC, s.units()), q.Celsius.Text(l.hotC, s.units()))
}

// pairHarm reports what pairs of faults reach harm, by their cause.
func (s *study) pairHarm() []finding.Finding {
	var list []finding.Finding
	for k, key := range sortedKeys(s.grouped) {
		g := &s.out.Pairs.Groups[k]
		severity, because := finding.Note, "each of the two shows itself when it comes, so it can be mended before the other does"
		if g.Silent {
			severity, because = finding.Care, "one of the two goes unnoticed until the other comes"
		}
		list = append(list, finding.Finding{ID: ruleOf("uncovered-pairs", g.Harm), Severity: severity, Where: s.groupPlace(key),
			Found: fmt.Sprintf("%s; %s, worst %s with %s in %s: %s", g.Cause, counted(len(g.Pairs), "pair"),
				g.Worst.Fault, g.Worst.Second, g.Worst.Scene, s.extent(&g.Worst)),
			Because: because,
			Mend:    s.mendBy(g.Addition, "no addition that was tried covers all of them; rehearse these parts at every visit, so that no fault waits for a second"), Workings: s.ran(&g.Worst)})
	}
	return list
}

// groupPlace is where the common part of a group stands in the rig file.
func (s *study) groupPlace(k groupKey) string {
	for _, h := range s.grouped[k] {
		for _, f := range []int{h.a, h.b} {
			if k.layer != "" && s.takesAway(f, k.layer) || k.layer == "" && s.faults[f].Kind == k.kind {
				return s.place(s.faults[f].Device)
			}
		}
	}
	return "protection"
}

// silentFaults reports faults that nothing shows and that pairs feed on, one
// finding a part.
func (s *study) silentFaults() []finding.Finding {
	feeds := map[int]map[int]bool{} // by silent fault, those it makes harmful
	for _, h := range s.harm {
		s.feed(feeds, h.a, h.b)
		s.feed(feeds, h.b, h.a)
	}
	var list []finding.Finding
	var done []string
	for f := range s.faults {
		device := s.faults[f].Device
		if feeds[f] == nil || slices.Contains(done, device) {
			continue
		}
		done = append(done, device)
		faults, others := s.feedsOf(feeds, device)
		list = append(list, finding.Finding{ID: "silent-fault", Severity: finding.Care, Where: s.place(device),
			Found:   fmt.Sprintf("%s: nothing shows it, and with %s besides, a cell comes to harm", few(faults), anyOf(others)),
			Because: "what has failed unseen stays so until the next fault finds it",
			Mend:    s.tryIt(device)})
	}
	return list
}

func (s *study) feed(feeds map[int]map[int]bool, silent, with int) {
	if !s.dormant(silent) {
		return
	}
	if feeds[silent] == nil {
		feeds[silent] = map[int]bool{}
	}
	feeds[silent][with] = true
}

// feedsOf are the silent faults of a part, and those they wait for.
func (s *study) feedsOf(feeds map[int]map[int]bool, device string) (faults, others []string) {
	for f := range s.faults {
		if s.faults[f].Device != device || feeds[f] == nil {
			continue
		}
		faults = append(faults, s.faults[f].Name)
		for with := range s.faults {
			if name := s.faults[with].Name; feeds[f][with] && !slices.Contains(others, name) {
				others = append(others, name)
			}
		}
	}
	return faults, others
}

// counted writes a number of things.
func counted(n int, thing string) string {
	if n == 1 {
		return "one " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// anyOf names the only one, or counts.
func anyOf(faults []string) string {
	if len(faults) == 1 {
		return faults[0]
	}
	return fmt.Sprintf("any one of %d other faults", len(faults))
}

// tryIt names what would show a silent fault of a part.
func (s *study) tryIt(device string) string {
	var tests []string
	for _, t := range s.out.Rehearsal {
		if s.concerns(t, device) {
			tests = append(tests, t.Name)
		}
	}
	switch {
	case len(tests) > 0:
		return "try it at every visit as the rehearsal sheet says: " + few(tests)
	case s.place(device) == "bank":
		return "read every group at each visit, at rest, and compare with the visit before: a group that drifts shows there first"
	case slices.ContainsFunc(circuit.Fuses(s.rig, "string"), func(f *rig.Fuse) bool { return f.Name == device }):
		return "measure the current of each string at each visit: all carry alike"
	}
	return "look at it at every visit; no test without harm was found for it"
}

// concerns reports whether a test would show that a part has failed.
func (s *study) concerns(t Rehearsal, device string) bool {
	return strings.HasPrefix(t.Name, device+": ") || slices.ContainsFunc(s.guards, func(g Guard) bool {
		return slices.Contains(strings.Split(t.Tests, both), g.Name) && slices.Contains([]string{g.Device, g.Logic, g.Switch}, device)
	})
}

// needless reports single faults that only cost power.
func (s *study) needless() []finding.Finding {
	runs := s.singlesWith(Nuisance)
	if len(runs) == 0 {
		return nil
	}
	return []finding.Finding{{ID: "needless-loss", Severity: finding.Note, Where: "protection",
		Found:   fmt.Sprintf("%s: power is lost though no cell is in danger", s.list(runs)),
		Because: "a layer that acts without need is the harmless way to fail, and people bridge what bothers them",
		Mend:    "know it when you see it; never bridge it to get the light back"}}
}

// figures are the names of those behind the models of a drill.
func (s *study) figures() []string {
	return []string{"sun-position", "plane-irradiance", "panel-power", "heat-loss", "rest-voltage", "resistance-at", "rc-relaxation", "charge-limit", "layer-band"}
}
