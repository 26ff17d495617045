package fit

import (
	"fmt"
	"strings"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

func noCellMeter(s *study) []finding.Finding {
	if s.acid() || len(s.rig.Protection.Meters) > 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Care, "protection.meters", "nothing watches the single groups",
		"devices on the whole bank see the mean; one group that drifts reaches its limit unseen",
		"fit a cell meter with an alarm on every group")}
}

func tapsMissing(s *study) []finding.Finding {
	meters := s.rig.Protection.Meters
	if s.acid() || len(meters) == 0 {
		return nil
	}
	groups, watched := s.info.Series*max(1, s.rig.Bank.Strings), 0
	for _, m := range meters {
		watched += m.Watches
	}
	if watched >= groups {
		return nil
	}
	return []finding.Finding{mistake(finding.Care, "protection.meters."+meters[0].Name+".watches",
		fmt.Sprintf("%d of %d groups are watched", watched, groups), "a group without a tap can drift or fail unseen",
		fmt.Sprintf("wire a tap to each of the %d groups, those of every string", groups))}
}

// weakGroupUnseen is a bank disconnect that sees the mean while a weaker group
// is already empty.
func weakGroupUnseen(s *study) []finding.Finding {
	mean, ok := s.meanAtHarm()
	if !ok {
		return nil
	}
	var list []finding.Finding
	for _, m := range s.today.members(DisconnLow) {
		if m.th.Series == 1 {
			return nil
		}
		if trip := m.th.Setting * (1 - m.th.Tolerance) / m.th.Series; trip < mean-nudge {
			list = append(list, s.about(m, mistake(finding.Care, m.path,
				fmt.Sprintf("the weakest group is at %s when the mean is still at %s; %s opens at a mean of %s", s.volts(s.cell.MinV.Value), s.volts(mean), m.device, s.volts(trip)),
				"a relay on the whole bank does not see the weakest group run empty before the others",
				fmt.Sprintf("set low of %s to %s, or let the cell meter open the contactor", m.device, s.volts(ceilTo(mean*s.series()/(1-m.th.Tolerance), m.step)))).
				By(working.Use(s.meanAtHarmUse()), working.Found("its setting less its accuracy, over the groups", working.Of("opens at a mean of", trip, q.Volts)))))
		}
	}
	return list
}

// lowCutTooLow is a low cut that lets a cell past its limit, or past where alarm
// and disconnect must stand.
func lowCutTooLow(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.today.members(DailyLow) {
		rec := s.ladder.find(m.path)
		found := fmt.Sprintf("low cut of %s at %s lets the lowest cell come to %s", m.device, s.volts(m.th.Setting), s.volts(m.band().Beyond))
		switch {
		case m.th.Setting >= rec.th.Setting-nudge:
		case s.farther(m, m.band().Beyond, s.cell.MinV.Value):
			list = append(list, s.about(m, mistake(finding.Stop, m.path, found+fmt.Sprintf(", past its limit of %s", s.volts(s.cell.MinV.Value)),
				"an over-discharged cell can dissolve copper and short when it is charged again", s.setTo(m.path, m))))
		case s.farther(m, m.band().Beyond, s.outside(m)):
			list = append(list, s.by(s.about(m, mistake(finding.Care, m.path, found+fmt.Sprintf("; the next layer must be able to act from %s", s.volts(s.outside(m))),
				"the alarm or the disconnect comes first and the low cut never acts", s.setTo(m.path, m))), s.outerBands(m)...))
		default:
			list = append(list, s.about(m, mistake(finding.Note, m.path, found, "it fits inside the layers, but there the curve falls steeply and groups drift apart", s.setTo(m.path, m))))
		}
	}
	return list
}

// lowCutBelowInverter is a disconnect that comes only after the inverter has
// already fallen out.
func lowCutBelowInverter(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.today.members(DisconnLow) {
		if m.th.Series == 1 {
			continue
		}
		trip := m.th.Setting * (1 - m.th.Tolerance)
		for _, inv := range s.rig.Inverters {
			lowest := float64(*inv.InputLow)
			if trip >= lowest-nudge || lowest > s.cell.DailyLowV.Value*s.series() {
				continue
			}
			severity := finding.Care
			if rec := s.ladder.find(m.path); m.th.Setting >= rec.th.Setting-nudge {
				severity = finding.Note // it cannot be set higher without taking from daily use
			}
			list = append(list, s.about(m, mistake(severity, m.path,
				fmt.Sprintf("%s disconnects at %s, as low as %s; %s stops working at %s", m.device, s.volts(m.th.Setting), s.volts(trip), inv.Name, s.volts(lowest)),
				"the inverter falls out first, and whatever else stays on the bank draws it down past", s.setTo(m.path, m)).
				By(working.Stated(working.Of(inv.Name+", works down to", lowest, q.Volts)), working.Found("its setting less its accuracy", working.Of("as low as", trip, q.Volts)))))
			break
		}
	}
	return list
}

func noLowCut(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.ladder.members(DailyLow) {
		if s.today.find(m.path) != nil {
			continue
		}
		list = append(list, s.by(mistake(finding.Care, m.path, fmt.Sprintf("%s has no low cut set", m.device),
			"what it feeds empties the bank down to the disconnect, which is there for mishaps", s.setTo(m.path, m)), s.advice(m.path)...))
	}
	return list
}

func capacityUnmeasured(s *study) []finding.Finding {
	if s.info.Measured {
		return nil
	}
	taken := "as rated when new"
	if s.info.Capacity != s.info.RatedAh {
		taken = "from an estimate of its past"
	}
	return []finding.Finding{mistake(finding.Care, "bank.measured.capacity", fmt.Sprintf("capacity is taken %s, %s", taken, s.ampHours(s.info.Capacity)),
		"a used bank holds less; energy, currents and every reckoning from them are too hopeful", "run a capacity test and enter what it finds").
		By(working.Stated(working.Of("capacity of a cell, rated", float64(*s.rig.Bank.CellCapacity), q.AmpereHours)),
			working.Found(fmt.Sprintf("times %d in parallel, or as estimated", s.info.Parallel), working.Of("capacity", s.info.Capacity, q.AmpereHours)))}
}

func spreadUnmeasured(s *study) []finding.Finding {
	if s.acid() || s.info.SpreadHow == "measured" {
		return nil
	}
	return []finding.Finding{mistake(finding.Care, "bank.measured.spread_high",
		fmt.Sprintf("the spread between groups is assumed: %s near full, %s near empty", s.volts(s.info.SpreadHi), s.volts(s.info.SpreadLo)),
		"the highest and the lowest group reach their limits first; the assumption is common practice without a source",
		"note every group's voltage near full and near empty, and enter how far the highest and the lowest stand from the mean").
		By(working.Taken("spread near full", s.info.SpreadHi, q.Volts, source.SpreadHabit), working.Taken("spread near empty", s.info.SpreadLo, q.Volts, source.SpreadHabit))}
}

// toleranceAssumed lists devices that do not state their accuracy.
func toleranceAssumed(s *study) []finding.Finding {
	var names []string
	for _, src := range s.rig.Charge {
		names = appendIf(names, src.Tolerance == nil, src.Name)
	}
	for _, v := range s.rig.Inverters {
		names = appendIf(names, v.Tolerance == nil, v.Name)
	}
	for _, v := range s.rig.Converters {
		names = appendIf(names, v.Tolerance == nil, v.Name)
	}
	for _, r := range s.rig.Protection.Relays {
		names = appendIf(names, r.Tolerance == nil, r.Name)
	}
	for _, m := range s.rig.Protection.Meters {
		names = appendIf(names, m.Tolerance == nil, m.Name)
	}
	if len(names) == 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Note, "protection", "accuracy is not given of "+strings.Join(names, ", "),
		fmt.Sprintf("%s of the voltage, or %s for a cell meter, is assumed; common practice, no source", s.fine(assumedTolerance), s.volts(assumedMeterError)),
		"look the accuracy up in each device's papers and enter it").
		By(working.Taken("of the voltage", assumedTolerance, q.Fraction, source.ToleranceHabit), working.Taken("of a cell meter", assumedMeterError, q.Volts, source.ToleranceHabit))}
}

func appendIf(list []string, yes bool, s string) []string {
	if yes {
		return append(list, s)
	}
	return list
}

// settingsNotGiven lists, device by device, what the file does not state: it
// could not be checked.
func settingsNotGiven(s *study) []finding.Finding {
	missing := map[string][]string{}
	var order []string
	for _, x := range s.sheet {
		if x.Today != notGiven || x.Value == Off && x.Kind == "temperature cut-out" {
			continue
		}
		where := strings.TrimSuffix(x.Path, "."+strings.ReplaceAll(x.Setting, " ", "_"))
		if missing[where] == nil {
			order = append(order, where)
		}
		missing[where] = append(missing[where], x.Setting)
	}
	var list []finding.Finding
	for _, where := range order {
		list = append(list, mistake(finding.Note, where, "not given: "+strings.Join(missing[where], ", "),
			"what is not written down was not checked", "read the setting off the device and enter it, or set it as on the settings sheet"))
	}
	return list
}
