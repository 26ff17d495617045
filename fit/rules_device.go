package fit

import (
	"fmt"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/working"
)

// inputRange compares what inverters and converters take with the bank.
func inputRange(s *study) []finding.Finding {
	var list []finding.Finding
	for _, v := range s.rig.Inverters {
		list = append(list, s.inputOf("inverters."+v.Name, v.Name, float64(*v.InputLow), float64(*v.InputHigh))...)
	}
	for _, v := range s.rig.Converters {
		list = append(list, s.inputOf("converters."+v.Name, v.Name, float64(*v.InputLow), float64(*v.InputHigh))...)
	}
	return list
}

func (s *study) inputOf(path, name string, low, high float64) []finding.Finding {
	var list []finding.Finding
	if high < s.window.BankHighV-nudge {
		list = append(list, s.by(mistake(finding.Stop, path+".input_high",
			fmt.Sprintf("%s bears %s; the bank can reach %s", name, s.volts(high), s.volts(s.window.BankHighV)),
			"too high an input destroys it, perhaps with fire", fmt.Sprintf("use one that bears at least %s", s.volts(s.window.BankHighV))).By(working.Stated(working.Of("input high", high, q.Volts))), s.window.How[0]))
	}
	daily := s.cell.DailyLowV.Value * s.series()
	if low > daily+nudge {
		whole, left := s.energyBetween(s.cell.DailyLowV.Value, s.dailyHigh()), s.energyBetween(low/s.series(), s.dailyHigh())
		list = append(list, s.by(mistake(finding.Care, path+".input_low",
			fmt.Sprintf("%s works from %s; the bank is empty only at %s", name, s.volts(low), s.volts(daily)),
			fmt.Sprintf("it stops while %s of the daily energy is still there", s.percent(1-max(0, left)/whole)),
			fmt.Sprintf("use one that works from %s, or a bank with more groups in series", s.volts(daily))).
			By(working.Stated(working.Of("input low", low, q.Volts)), working.Found("the cell's preferred bottom over the groups in series", working.Of("bank empty", daily, q.Volts)),
				working.Found("one less the energy above its input low over that of the daily window", working.Of("left", 1-max(0, left)/whole, q.Fraction))),
			s.limits(), s.energyUse(s.cell.DailyLowV.Value, s.dailyHigh())))
	}
	return list
}

// outOfDeviceRange is a charger that cannot be set as low as the bank needs. A
// setting of today outside the range is refused by the reader already.
func outOfDeviceRange(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.ladder.members(DailyHigh) {
		if m.th.Setting >= m.least-nudge {
			continue
		}
		list = append(list, s.about(m, mistake(finding.Stop, m.path, fmt.Sprintf("%s cannot be set below %s; this bank needs %s", m.device, s.volts(m.least), s.volts(m.th.Setting)),
			"it would charge past where the other layers must act", "use a charger that can be set so low, or a bank with more groups in series").By(working.Stated(working.Of("lowest", m.least, q.Volts)))))
	}
	return list
}

// setPointTooFine finds voltages between two steps of the device.
func setPointTooFine(s *study) []finding.Finding {
	var list []finding.Finding
	look := func(path string, step *q.Voltage, settings map[string]rig.Setting[q.Voltage], keys ...string) {
		if step == nil {
			return
		}
		for _, key := range keys {
			v, on := value(settings[key])
			if !on || wholeSteps(v, float64(*step)) {
				continue
			}
			mend := fmt.Sprintf("set %s", s.volts(floorTo(v, float64(*step))))
			if better, ok := s.recommended(path + "." + key); ok {
				mend = fmt.Sprintf("set %s", s.volts(better))
			}
			list = append(list, s.by(mistake(finding.Care, path+"."+key, fmt.Sprintf("%g V is not a whole number of steps of %s", v, s.volts(float64(*step))),
				"the device rounds it, and you cannot tell which way", mend).
				By(working.Stated(working.Of(spaced(key), v, q.Volts), working.Of("step", float64(*step), q.Volts))), s.advice(path+"."+key)...))
		}
	}
	for _, c := range s.rig.Charge {
		x := c.Settings
		look("charge."+c.Name+".settings", c.Step, voltages{"absorption": x.Absorption, "float": x.Float, "equalise": x.Equalise, "restart": x.Restart},
			"absorption", "float", "equalise", "restart")
	}
	for _, v := range s.rig.Inverters {
		look("inverters."+v.Name, v.Step, voltages{"low_cut": v.LowCut, "restart": v.Restart}, "low_cut", "restart")
	}
	for _, v := range s.rig.Converters {
		look("converters."+v.Name, v.Step, voltages{"low_cut": v.LowCut, "restart": v.Restart}, "low_cut", "restart")
	}
	for _, r := range s.rig.Protection.Relays {
		look("protection.relays."+r.Name, r.Step, voltages{"high": r.High, "high_reset": r.HighReset, "low": r.Low, "low_reset": r.LowReset},
			"high", "high_reset", "low", "low_reset")
	}
	for _, m := range s.rig.Protection.Meters {
		look("protection.meters."+m.Name, m.Step, voltages{"alarm_high": m.AlarmHigh, "alarm_low": m.AlarmLow, "spread": m.Spread},
			"alarm_high", "alarm_low", "spread")
	}
	return list
}

type voltages = map[string]rig.Setting[q.Voltage]

// alternatorUnloaded is an alternator whose only battery the disconnect takes
// away while it runs.
func alternatorUnloaded(s *study) []finding.Finding {
	return s.eachSource(func(k int, path string) []finding.Finding {
		src := &s.rig.Charge[k]
		if src.Kind != "alternator" || src.StarterBattery == "stays" || !s.disconnected(src.Name) {
			return nil
		}
		severity, found := finding.Stop, "no other battery stays on the alternator when the bank disconnects"
		if src.StarterBattery == "" {
			severity, found = finding.Care, "it is not said whether a starter battery stays on the alternator when the bank disconnects"
		}
		return []finding.Finding{mistake(severity, "charge."+src.Name+".starter_battery", found,
			"an alternator that loses its load under way throws a surge far above its voltage into everything connected",
			"leave the starter battery on the alternator at all times, and stop its charger by its input before the contactor opens")}
	})
}
