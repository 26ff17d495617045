package keep

import (
	"fmt"
	"math"

	"ampstead/finding"
	q "ampstead/quantity"
)

// Below the first a lithium cell wants care, below the second it is not charged
// again: copper may have dissolved.
const (
	careV = 2.0
	deadV = 1.5
	// Loss in a month beyond the middle group, share of the capacity, as in grading.
	careMonth = 0.02
	stopMonth = 0.10
	monthH    = 30 * 24
)

// outside is a group out of its window at the last reading.
type outside struct {
	group int
	low   bool
	dead  bool
	found string
	why   string
}

// beyond lists the groups that stand out of the safe window at the last reading,
// as read, so with what the current does to them.
func (s *study) beyond() (list []outside) {
	if len(s.visits) == 0 {
		return nil
	}
	v := s.visits[len(s.visits)-1]
	lowest, highest := s.fit.Window.CellLowV, s.fit.Window.CellHighV
	lithium := s.plant.kind.Acid == nil
	for k, volt := range v.raw {
		at := outside{group: k + 1}
		switch {
		case volt > highest+sigmaOf(v.meter):
			at.found = fmt.Sprintf("group %d at %s, above its limit of %s", k+1, s.volts(volt), s.volts(highest))
			at.why = "an over-charged cell ages fast, plates lithium and runs away at a far lower temperature"
		case lithium && volt < deadV:
			at.low, at.dead = true, true
			at.found = fmt.Sprintf("group %d at %s, below %s", k+1, s.volts(volt), s.volts(deadV))
			at.why = "so far down copper may have dissolved; charged again it can short inside"
		case lithium && volt < careV:
			at.low = true
			at.found = fmt.Sprintf("group %d at %s, below %s", k+1, s.volts(volt), s.volts(careV))
			at.why = "below this copper begins to dissolve; it must be raised gently and watched for self-discharge"
		case volt < lowest-sigmaOf(v.meter):
			at.low = true
			at.found = fmt.Sprintf("group %d at %s, below its limit of %s", k+1, s.volts(volt), s.volts(lowest))
			at.why = "a cell drained below its limit is harmed and may come back with a short"
		default:
			continue
		}
		list = append(list, at)
	}
	return list
}

// find lists what is wrong or worth knowing.
func (s *study) find() {
	list := []finding.Finding{}
	for _, l := range s.beyond() {
		mend := "stop charging; see why no device did"
		if l.low {
			mend = "take the loads off and raise it gently, at a twentieth of its capacity an hour or less, watching it"
		}
		if l.dead {
			mend = "do not charge it; take the module out of use"
		}
		list = append(list, finding.Finding{ID: "group-outside", Severity: finding.Stop, Where: groupPath(l.group), Found: l.found, Because: l.why, Mend: mend})
	}
	for k, g := range s.res.Groups {
		if g.Drifts {
			list = append(list, s.driftFinding(k, g))
		}
		if g.Step != nil {
			list = append(list, finding.Finding{ID: "group-step", Severity: finding.Care, Where: groupPath(g.Number),
				Found:   fmt.Sprintf("group %d moved by %s ± %s about %s", g.Number, s.ampHours(g.Step.Ah), s.ampHours(g.Step.Err), g.Step.At),
				Because: g.Step.Like, Mend: "check its links and cells; enter what was done to it, if anything was"})
		}
	}
	if s.res.Balance.Wanted {
		list = append(list, finding.Finding{ID: "groups-apart", Severity: finding.Care, Where: "bank",
			Found:   fmt.Sprintf("the groups stand %s apart", s.ampHours(spread(s.offsets()))),
			Because: fmt.Sprintf("the highest ends every charge and the lowest every discharge: %s of usable energy are lost", s.energyText(s.res.Balance.GainWh)),
			Mend:    s.balanceWords()})
	}
	for k := range list {
		list[k] = list[k].By(s.workings(&list[k])...)
	}
	finding.Sort(list)
	s.res.Findings = list
}

// driftFinding grades a drift by what it takes in a month and how soon it matters.
func (s *study) driftFinding(k int, g Group) finding.Finding {
	month := math.Abs(g.DriftMA) / 1000 * monthH / s.plant.ah[k]
	f := finding.Finding{ID: "group-drifts", Severity: finding.Note, Where: groupPath(g.Number),
		Found:   fmt.Sprintf("group %d: %s", g.Number, s.driftWords(g)),
		Because: fmt.Sprintf("%.2g %% of its charge a month; a leak inside a cell may grow", 100*month),
		Mend:    "follow it at each visit; level the groups when they stand too far apart"}
	if month > careMonth || g.Reached != "" && s.daysFromNow(g.Reached) < daysAYear {
		f.Severity = finding.Care
		if g.Reached != "" {
			f.Because += "; it reaches an alarm about " + g.Reached
		}
		f.Mend = "look for a wire fed from this group alone and for dirt or damp on it; if there is none, plan to exchange the module"
	}
	if month > stopMonth && g.DriftMA > 0 {
		f.Severity = finding.Stop
		f.Because = fmt.Sprintf("%.2g %% of its charge a month is far beyond self-discharge: it shorts inside, or something drains it", 100*month)
		f.Mend = "disconnect the module until the cause is found"
	}
	return f
}

func groupPath(number int) string { return fmt.Sprintf("bank.measured.groups.%d", number-1) }

func (s *study) energyText(wh float64) string { return q.WattHours.Text(math.Round(wh), s.sys) }
