package fit

import (
	"fmt"
	"math"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// wished reports whether the owner wants an end of the daily window elsewhere.
func (s *study) wished(high bool) bool {
	d := s.rig.Bank.Daily
	switch {
	case d == nil || s.acid():
		return false
	case high:
		return d.High != nil
	}
	return d.Low != nil
}

// dailyUnmet is a wish for the daily window that the layers around it, or what
// a device can be set to, do not allow.
func dailyUnmet(s *study) []finding.Finding {
	if s.acid() {
		if s.rig.Bank.Daily == nil {
			return nil
		}
		return []finding.Finding{mistake(finding.Note, "bank.daily", "a window for daily use is wanted of a lead-acid bank; it is not used",
			"lead-acid that is not charged full again and again sulphates", "leave bank.daily out")}
	}
	var list []finding.Finding
	for _, end := range []struct {
		high  bool
		key   string
		layer string
	}{{true, "high", DailyHigh}, {false, "low", DailyLow}} {
		if s.wished(end.high) {
			list = append(list, s.unmet(end.key, end.layer)...)
		}
	}
	return list
}

// unmet is about one end; of several devices the one farthest from the wish.
func (s *study) unmet(key, layer string) []finding.Finding {
	var worst *limiter
	for _, m := range s.ladder.members(layer) {
		if off := m.off(); off > nudge && (worst == nil || off > worst.off()) {
			worst = m
		}
	}
	if worst == nil {
		return nil
	}
	because := "the alarm or disconnect outside it, and the accuracy of the devices, leave no more room"
	if worst.gentler(worst.th.Setting, worst.gentle) != worst.th.Setting {
		because = "it cannot be set any gentler"
	}
	return []finding.Finding{s.about(worst, mistake(finding.Note, "bank.daily."+key,
		fmt.Sprintf("%s a cell is wanted; %s of %s is set to %s a cell", s.volts(worst.gentle/worst.th.Series), worst.setting, worst.device, s.volts(worst.cellSet())),
		because, fmt.Sprintf("ask for %s, or for what a more accurate device allows", s.volts(worst.cellSet()))).By(working.Stated(working.Of("wanted", worst.gentle/worst.th.Series, q.Volts))))}
}

// off is how far the setting is from the one preferred, beyond its step, V.
func (m *limiter) off() float64 { return math.Abs(m.th.Setting - m.inward(m.gentle)) }
