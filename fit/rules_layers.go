package fit

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/figure"
	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/working"
)

// layersCross reports layers that cannot be staged at all, and an alarm set so
// near that charging or discharging sets it off.
func layersCross(s *study) []finding.Finding {
	if !s.fits(s.ladder) {
		return s.cannotStage()
	}
	var list []finding.Finding
	for _, high := range []bool{true, false} {
		alarm, daily := AlarmLow, DailyLow
		if high {
			alarm, daily = AlarmHigh, DailyHigh
		}
		for _, m := range s.today.members(alarm) {
			if d := s.crossing(m, daily); d != nil && !s.late(m) {
				list = append(list, s.about(m, mistake(finding.Care, m.path,
					fmt.Sprintf("the alarm can sound from %s, and %s of %s lets a cell come to %s", s.volts(m.band().Inner), d.setting, d.device, s.volts(d.band().Beyond)),
					"an alarm that sounds in ordinary use gets switched off", s.setTo(m.path, m)), d))
			}
		}
	}
	return list
}

// crossing finds a daily limit as set today, itself in order, that runs into m.
func (s *study) crossing(m *limiter, daily string) *limiter {
	for _, d := range s.today.members(daily) {
		if s.farther(d, d.band().Beyond, s.outside(d)) {
			continue
		}
		if s.farther(m, d.band().Beyond, m.band().Inner) {
			return d
		}
	}
	return nil
}

// farther reports whether a lies closer to harm than b, on the side of m.
func (s *study) farther(m *limiter, a, b float64) bool {
	if m.th.High {
		return a > b+nudge
	}
	return a < b-nudge
}

// harmOf is the harm line on the side of m.
func (s *study) harmOf(m *limiter) float64 {
	if m.th.High {
		return s.cell.MaxV.Value
	}
	return s.cell.MinV.Value
}

func (s *study) cannotStage() []finding.Finding {
	list := s.culprits()
	worst := list[0]
	mend := fmt.Sprintf("even without the %s they would not fit: use fewer layers, finer devices, or better matched groups", worst.what)
	for _, c := range list {
		if share, ok := s.largestThatFits(c); ok {
			mend = fmt.Sprintf("they fit when the %s is %s or better instead of %s", c.what, c.at(share), c.at(1))
			break
		}
	}
	taken := working.Found("by working the layers again without "+worst.what, working.Of("room it takes", worst.taken, q.Volts))
	return []finding.Finding{s.by(mistake(finding.Stop, worst.path,
		fmt.Sprintf("harm, disconnect, alarm and daily limits do not fit between %s and %s a cell; the largest part is the %s, which takes %s",
			s.volts(s.cell.MinV.Value), s.volts(s.cell.MaxV.Value), worst.what, s.volts(worst.taken)),
		"with every tolerance against you a layer would act after the one it comes before, or no useful range is left", mend).By(taken), append(s.bandsOf(s.ladder), s.limits())...)}
}

func relayBeyondHarm(s *study) []finding.Finding {
	var list []finding.Finding
	for _, name := range []string{DisconnHigh, DisconnLow} {
		for _, m := range s.today.members(name) {
			if !s.farther(m, m.band().Beyond, s.harmOf(m)) {
				continue
			}
			list = append(list, s.about(m, mistake(finding.Stop, m.path,
				fmt.Sprintf("%s of %s is %s, %s a cell; with accuracy, spread and delay against you the worst cell is at %s when it acts, past its limit of %s",
					m.setting, m.device, s.volts(m.th.Setting), s.volts(m.cellSet()), s.volts(m.band().Beyond), s.volts(s.harmOf(m))),
				"the last layer must act before harm, not after it", s.setTo(m.path, m))))
		}
	}
	return list
}

func relayInsideDaily(s *study) []finding.Finding {
	var list []finding.Finding
	for _, pair := range [][2]string{{DisconnHigh, DailyHigh}, {DisconnLow, DailyLow}} {
		for _, m := range s.today.members(pair[0]) {
			d := s.crossing(m, pair[1])
			if d == nil || s.farther(m, m.band().Beyond, s.harmOf(m)) {
				continue
			}
			list = append(list, s.about(m, mistake(finding.Care, m.path,
				fmt.Sprintf("%s of %s can act from %s a cell, and %s of %s lets a cell come to %s", m.setting, m.device, s.volts(m.band().Inner), d.setting, d.device, s.volts(d.band().Beyond)),
				"the disconnect would open in ordinary use: lights out, and charge sources cut off under load", s.setTo(m.path, m)), d))
		}
	}
	return list
}

// late reports whether an alarm comes after the disconnect, as set today where
// that is in order, else as advised, else the harm line.
func (s *study) late(m *limiter) bool { return s.farther(m, m.band().Beyond, s.disconnectOf(m)) }

func (s *study) disconnectOf(m *limiter) float64 {
	name, daily := DisconnLow, DailyLow
	if m.th.High {
		name, daily = DisconnHigh, DailyHigh
	}
	var inOrder []*limiter
	for _, d := range s.sound(name) {
		if !s.runsInto(d, daily) {
			inOrder = append(inOrder, d)
		}
	}
	if len(inOrder) == 0 {
		inOrder = s.ladder.members(name)
	}
	return innermost(inOrder, s.harmOf(m))
}

// runsInto reports whether a disconnect is set so far in that a daily limit
// which is no higher than advised runs into it.
func (s *study) runsInto(m *limiter, daily string) bool {
	for _, d := range s.today.members(daily) {
		if !s.farther(d, d.band().Beyond, s.advised(d)) && s.farther(m, d.band().Beyond, m.band().Inner) {
			return true
		}
	}
	return false
}

func alarmAfterDisconnect(s *study) []finding.Finding {
	var list []finding.Finding
	for _, name := range []string{AlarmHigh, AlarmLow} {
		for _, m := range s.today.members(name) {
			if !s.late(m) {
				continue
			}
			list = append(list, s.about(m, mistake(finding.Care, m.path,
				fmt.Sprintf("the alarm at %s may come only at %s; the disconnect can act from %s", s.volts(m.th.Setting), s.volts(m.band().Beyond), s.volts(s.disconnectOf(m))),
				"a warning that comes after the disconnect warns nobody", s.setTo(m.path, m)), s.disconnects(m)...))
		}
	}
	return list
}

// disconnects are those an alarm must come before: as set today, and as advised.
func (s *study) disconnects(m *limiter) []*limiter {
	name := DisconnLow
	if m.th.High {
		name = DisconnHigh
	}
	return append(slices.Clone(s.sound(name)), s.ladder.members(name)...)
}

// bandsOf explains every layer of a ladder.
func (s *study) bandsOf(l ladder) []figure.Use {
	var uses []figure.Use
	for _, name := range rising {
		for _, m := range l.by[name] {
			uses = append(uses, s.bandUse(m))
		}
	}
	return uses
}

// noDisconnect asks for something, as set today, that cuts off every source at
// the top and the loads at the bottom.
func noDisconnect(s *study) []finding.Finding {
	high, low := s.uncovered(), len(s.today.members(DisconnLow)) == 0
	if len(high) == 0 && !low {
		return nil
	}
	severity, found := finding.Care, "nothing disconnects the loads when the bank is empty"
	if len(high) > 0 {
		severity, found = finding.Stop, "nothing disconnects "+strings.Join(high, ", ")+" when a cell is too high"
		if low {
			found += ", nor the loads when the bank is empty"
		}
	}
	if s.acid() {
		severity = finding.Note
	}
	where, mend := "protection.relays", "fit a voltage relay that opens a contactor at the bank, with its own sensing, and set it as on the settings sheet"
	if r := s.idleRelay(); r != nil {
		where, mend = "protection.relays."+r.Name+".high", fmt.Sprintf("set high and low of %s as on the settings sheet", r.Name)
	}
	return []finding.Finding{mistake(severity, where, found,
		"a charger that sticks on, or a load left on, is stopped by nothing but luck", mend)}
}

// idleRelay is a relay that opens the bank's contactor and is not set yet; nil
// without one.
func (s *study) idleRelay() *rig.Relay {
	for k := range s.rig.Protection.Relays {
		if r := &s.rig.Protection.Relays[k]; !r.High.Given && s.opensCharge(r.Drives) {
			return r
		}
	}
	return nil
}

// uncovered lists the charge sources that no disconnect as set today reaches.
func (s *study) uncovered() []string {
	var names []string
	for _, src := range s.rig.Charge {
		if !s.disconnected(src.Name) {
			names = append(names, src.Name)
		}
	}
	return names
}

func (s *study) disconnected(source string) bool {
	for _, m := range s.today.members(DisconnHigh) {
		if drives := s.drives(m.device); drives == source || s.opensCharge(drives) {
			return true
		}
	}
	return false
}

// drives is what a relay or meter switches.
func (s *study) drives(device string) string {
	for _, r := range s.rig.Protection.Relays {
		if r.Name == device {
			return r.Drives
		}
	}
	for _, m := range s.rig.Protection.Meters {
		if m.Name == device {
			return m.Drives
		}
	}
	return ""
}

func (s *study) opensCharge(contactor string) bool {
	for _, c := range s.rig.Protection.Contactors {
		if c.Name == contactor {
			return c.Opens != "loads"
		}
	}
	return false
}
