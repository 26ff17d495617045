package wire

import (
	"fmt"
	"strings"

	"ampstead/finding"
	"ampstead/physics/protect"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

// written lists the runs of the file.
func (s *study) writtenRuns() []*run {
	var list []*run
	for _, r := range s.runs {
		if !r.Proposed {
			list = append(list, r)
		}
	}
	return list
}

// tooSmall reports whether a conductor is thinner than its current or drop asks
// for; that a fuse is too large for it is another mistake.
func (s *study) tooSmall(r *run) bool { return len(s.shortfalls(r)) > 0 }

// shortfalls lists what a conductor is too thin for.
func (s *study) shortfalls(r *run) []string {
	const rounding = 1e-9
	if r.Size == "" {
		return []string{"no size listed is enough"}
	}
	var list []string
	if !thickEnough(r.size) {
		list = append(list, "it is thinner than 16 AWG or 1 mm²")
	}
	if least := protect.Continuous * r.CurrentA; r.AmpacityA < least*(1-rounding) {
		list = append(list, fmt.Sprintf("it carries %s, and %s for long ask for %s", s.amps(r.AmpacityA), s.amps(r.CurrentA), s.amps(least)))
	}
	if way := max(r.WayPercent, s.tradeWay(r)); way > r.DropLimit*(1+rounding) {
		list = append(list, fmt.Sprintf("%s are lost up to its end, where %s are allowed", percent(way), percent(r.DropLimit)))
	}
	return list
}

// tradeWay is the drop in percent from the bank by the trade's formula.
func (s *study) tradeWay(r *run) float64 {
	sum := 0.0
	for at := r; at != nil; at = at.parent {
		sum += at.TradeDropV
	}
	return 100 * sum / r.OfV
}

func cableTooSmall(s *study) []finding.Finding {
	var list []finding.Finding
	for _, r := range s.runs {
		short := s.shortfalls(r)
		if len(short) == 0 || r.Proposed && r.Size != "" && r.SmallestSize != "" {
			continue
		}
		severity := finding.Care
		if r.CurrentA > r.AmpacityA {
			severity = finding.Stop
		}
		mend := fmt.Sprintf("no size listed is enough (%s): shorten the run, or share the current between two", r.DecidedBy)
		if r.SmallestSize != "" {
			mend = fmt.Sprintf("use %s or thicker, which %s decides", r.SmallestSize, r.DecidedBy)
		}
		list = append(list, by(mistake(severity, r.where(".size"), fmt.Sprintf("%s of %s: %s", r.Name, r.Size, strings.Join(short, "; ")),
			"a thin cable warms its insulation and everything beside it, and takes voltage from what it feeds", mend), r.How,
			r.row("size", "smallest_size", "length_m", "current_a", "ampacity_a", "fuse_least_a", "drop_percent", "way_percent", "drop_limit")))
	}
	return list
}

// where is a run's place in the file, or of all cables when it is not in it.
func (r *run) where(key string) string {
	if r.Path == "" {
		return "cables"
	}
	return r.Path + key
}

// lowVoltage is below this, V: a fuse may then exceed the conductor by a half
// (33 CFR 183.455).
const lowVoltage = 50

func cableUnprotected(s *study) []finding.Finding {
	var list []finding.Finding
	for _, r := range s.writtenRuns() {
		if r.kind == KindPanels || r.side > 0 || s.adrift(r) || r.FuseShared {
			continue
		}
		if f := r.guard; f.given != nil {
			list = append(list, s.overFused(r, f)...)
			continue
		}
		if f := s.bare(r); f != nil {
			list = append(list, *f)
		}
	}
	return list
}

// overFused compares a run with its own fuse.
func (s *study) overFused(r *run, f *fused) []finding.Finding {
	share := f.RatingA / r.AmpacityA
	if share <= 1+1e-9 {
		return nil
	}
	next, err := protect.NextSize(r.AmpacityA)
	severity := finding.Stop
	if share <= 1.5 && (s.res.TopV < lowVoltage || err == nil && f.RatingA <= next) {
		severity = finding.Care
	}
	return []finding.Finding{by(mistake(severity, f.Path+".rating",
		fmt.Sprintf("%s of %s guards %s, which carries %s", f.Name, s.amps(f.RatingA), r.Name, s.amps(r.AmpacityA)),
		"an overload the fuse lets pass burns the cable instead", s.mendFuse(r)), append(r.How, f.How...), r.row("size", "smallest_size", "ampacity_a", "current_a", "fuse_least_a"), f.row("rating_a"), nearest())}
}

// bare is a run that no fuse protects; the main run is circuit's rule.
func (s *study) bare(r *run) *finding.Finding {
	if r == s.mainRun() {
		return nil
	}
	found := fmt.Sprintf("%s has no fuse", r.Name)
	if before := r.before(); before != nil {
		found = fmt.Sprintf("%s carries %s and has no fuse; the one before it is rated %s", r.Name, s.amps(r.AmpacityA), s.amps(before.RatingA))
	}
	f := mistake(finding.Stop, r.where(""), found,
		fmt.Sprintf("the bank drives up to %s into a short in it, and an overload it cannot carry opens nothing", kiloamps(r.ShortStartA)), s.mendFuse(r))
	f = by(f, r.How, r.row("size", "smallest_size", "ampacity_a", "current_a", "fuse_least_a", "short_circuit_a"), nearest())
	if before := r.before(); before != nil {
		f = f.By(before.row("rating_a"))
	}
	return &f
}

// mendFuse says which fuse belongs to a run.
func (s *study) mendFuse(r *run) string {
	best, err := protect.NextSize(r.FuseLowA)
	switch {
	case err != nil:
		return "share the current between two cables, each with its fuse"
	case best > r.AmpacityA && r.SmallestSize == "":
		return "shorten the run or share the current, and give it its own fuse"
	case best > r.AmpacityA:
		return fmt.Sprintf("give it a fuse of %s where it begins, and %s or thicker", s.amps(best), r.SmallestSize)
	}
	class := ""
	if r.guard != nil && r.guard.BestClass != "" {
		class = r.guard.BestClass + " "
	}
	return fmt.Sprintf("give it a %sfuse of %s, within %s of where it begins", class, s.amps(best), s.metres(fuseNear))
}

// nearest is the rule of how far from its beginning a fuse may stand.
func nearest() finding.Working {
	return working.Taken("within of where a cable begins, unless it is enclosed all the way", fuseNear, q.Metres, source.CFR183455)
}

// slowClearing is taken for fuses that do not limit the current, s.
const slowClearing = 0.1

func shortWithstand(s *study) []finding.Finding {
	var list []finding.Finding
	for _, r := range s.writtenRuns() {
		class, known := protect.ClassNamed(r.FuseClass)
		if r.WithstandS == 0 || r.WithstandS >= slowClearing || r.FuseProposed || known && class.Limiting || s.cannotInterrupt(r) {
			continue
		}
		list = append(list, by(mistake(finding.Care, r.where(".size"),
			fmt.Sprintf("%s bears a short of %s for %.0f ms; a fuse of class %q may take %.0f ms", r.Name, kiloamps(r.ShortStartA), 1e3*r.WithstandS, r.FuseClass, 1e3*slowClearing),
			"the conductor may burn before its fuse has cleared", "use a current-limiting fuse (class T), or a thicker cable"), r.How, r.row("short_circuit_a", "withstand_s"),
			working.Taken("clearing of a fuse that does not limit the current, taken", slowClearing, q.Seconds, source.WireHabit)))
	}
	return list
}

// cannotInterrupt reports whether the fuse of a run must be exchanged anyway.
func (s *study) cannotInterrupt(r *run) bool {
	for _, f := range s.fuses {
		if f.Name == r.FuseName {
			return f.InterruptA < f.NeededA
		}
	}
	return false
}

func cableAdrift(s *study) []finding.Finding {
	var list []finding.Finding
	for _, r := range s.writtenRuns() {
		if s.adrift(r) && r.kind != KindPanels {
			list = append(list, mistake(finding.Care, r.where(".from"), fmt.Sprintf("%s does not lead to the bank", r.Name),
				"what hangs on it is not checked", "write down the cable between "+r.From+" and the bank or bus"))
		}
	}
	return list
}

// cableMissing lists, once, the runs between devices that the file does not have.
// The roof's and the modules' leads are proposed without a word.
func cableMissing(s *study) []finding.Finding {
	var names []string
	var rows []finding.Working
	for _, r := range s.runs {
		if r.Proposed && r.kind != KindPanels && r.From != KindModules && r.side == 0 {
			names = append(names, fmt.Sprintf("%s (%s for %s)", r.Name, r.Size, s.amps(r.CurrentA)))
			rows = append(rows, r.row("size", "length_m", "current_a"))
			rows = append(rows, working.Uses(r.How...)...)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Note, "cables", "not written down, and proposed with a length assumed: "+strings.Join(names, ", "),
		"the drop and the size depend on the length", "measure them and write them down").By(rows...)}
}
