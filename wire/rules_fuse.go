package wire

import (
	"fmt"
	"strings"

	"ampstead/circuit"
	"ampstead/finding"
	"ampstead/physics/protect"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

// eachGiven checks every fuse of the file.
func (s *study) eachGiven(check func(f *fused) []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for _, f := range s.fuses {
		if f.given != nil {
			list = append(list, check(f)...)
		}
	}
	return list
}

// branch reports whether a fuse is another than the main and string fuses, which
// circuit's rules check.
func branch(f *fused) bool { return f.given.Guards != "bank" && f.given.Guards != "string" }

func branchInterrupt(s *study) []finding.Finding {
	return s.eachGiven(func(f *fused) []finding.Finding {
		if !branch(f) || f.NeededA == 0 {
			return nil
		}
		return circuit.Interrupts(f.given, f.NeededA, f.VoltageNeededV, "the current is reckoned full, warm, with new cells, and with the cables before it cold",
			working.Uses(f.run.How...)...)
	})
}

func branchVoltage(s *study) []finding.Finding {
	return s.eachGiven(func(f *fused) []finding.Finding {
		if !branch(f) || f.run.side > 0 && f.given.RatedVoltage == nil {
			return nil
		}
		return circuit.BearsVoltage(f.given, f.VoltageNeededV)
	})
}

func fuseTooSmall(s *study) []finding.Finding {
	return s.eachGiven(func(f *fused) []finding.Finding {
		if f.RatingA >= f.LeastA*(1-1e-9) {
			return nil
		}
		best, err := protect.NextSize(f.LeastA)
		if err != nil {
			best = f.LeastA
		}
		return []finding.Finding{by(mistake(finding.Care, f.Path+".rating",
			fmt.Sprintf("%s is rated %s; %s carries %s for long", f.Name, s.amps(f.RatingA), f.Circuit, s.amps(f.run.CurrentA)),
			"a fuse that carries more than 80 % of its rating for hours runs hot, ages and opens when it should not",
			fmt.Sprintf("use a fuse of %s, and a conductor that carries it", s.amps(best))), f.How, f.row("rating_a", "least_a"), f.run.row("current_a"),
			working.Taken("most of its rating that a fuse carries for long", 1/protect.Continuous, q.Fraction, source.NECContinuous))}
	})
}

func fuseDistance(s *study) []finding.Finding {
	return s.eachGiven(func(f *fused) []finding.Finding {
		if f.DistanceM <= f.DistanceMostM || f.run.kind == KindPanels {
			return nil
		}
		severity := finding.Care
		if f.DistanceM > fuseEnclosed {
			severity = finding.Stop
		}
		return []finding.Finding{by(mistake(severity, f.Path+".distance",
			fmt.Sprintf("%s of cable lie between the source and %s; %s is the most", s.metres(f.DistanceM), f.Name, s.metres(f.DistanceMostM)),
			"a short on the cable before the fuse is not cleared by it",
			fmt.Sprintf("move the fuse to within %s of the source; %s only with the cable enclosed all the way", s.metres(fuseNear), s.metres(fuseEnclosed))), nil, f.row("distance_m", "distance_most_m"), nearest(),
			working.Taken("within, with the cable enclosed all the way", fuseEnclosed, q.Metres, source.CFR183455))}
	})
}

// fuseCoordination says, once, where a dead short may open more than one fuse.
func fuseCoordination(s *study) []finding.Finding {
	var both []string
	for _, p := range s.res.Coordination {
		if !p.OuterFirst && !p.Proposed {
			both = append(both, p.Outer+" behind "+p.Inner)
		}
	}
	if len(both) == 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Note, "protection.fuses",
		"it is not known that the outer fuse clears alone: "+strings.Join(both, ", "),
		fmt.Sprintf("in a dead short the inner fuse may open too, and everything goes dark; two class T fuses are taken to clear one by one from a ratio of %g on", protect.Coordinated),
		"carry a spare of each, or ask the fuses' maker for the two together")}
}
