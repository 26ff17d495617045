package fit

import (
	"ampstead/figure"
	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/rig"
)

// What is assumed of a device that does not state it; source.ToleranceHabit.
const (
	assumedTolerance  = 0.01  // of a voltage of the whole bank
	assumedMeterError = 0.010 // V
	assumedStep       = 0.1   // V
	assumedMeterStep  = 0.010 // V
	assumedWarmth     = 2.0   // K, of a thermostat or cut-out
)

// collect gathers every voltage threshold of the rig into its layer: as set
// today, or with the currents and delays recommended and the settings open.
func (s *study) collect(asSet bool) ladder {
	l := ladder{by: map[string][]*limiter{}}
	add := func(m *limiter, today rig.Setting[q.Voltage]) {
		if asSet {
			v, on := value(today)
			if !on {
				return
			}
			m.th.Setting = v
		}
		l.by[m.layer] = append(l.by[m.layer], m)
	}
	s.collectDaily(asSet, add)
	for k := range s.rig.Protection.Meters {
		m := &s.rig.Protection.Meters[k]
		add(s.meterLimit(m, true), m.AlarmHigh)
		add(s.meterLimit(m, false), m.AlarmLow)
	}
	for k := range s.rig.Protection.Relays {
		r := &s.rig.Protection.Relays[k]
		if reach := s.reach(r.Drives); reach.charge {
			add(s.relayLimit(r, true, asSet), r.High)
		}
		if reach := s.reach(r.Drives); reach.loads {
			add(s.relayLimit(r, false, asSet), r.Low)
		}
	}
	return l
}

func (s *study) collectDaily(asSet bool, add func(*limiter, rig.Setting[q.Voltage])) {
	for k := range s.rig.Charge {
		add(s.chargeLimit(k, asSet), s.rig.Charge[k].Settings.Absorption)
	}
	for k := range s.rig.Inverters {
		v := &s.rig.Inverters[k]
		m := s.lowCut("inverter", "inverters", v.Name, v.Tolerance, v.Step, v.InputLow, float64(*v.Power)/or(v.Efficiency, assumedInverterEfficiency))
		add(m, v.LowCut)
	}
	for k := range s.rig.Converters {
		v := &s.rig.Converters[k]
		m := s.lowCut("converter", "converters", v.Name, v.Tolerance, v.Step, v.InputLow, float64(*v.Power)/or(v.Efficiency, assumedConverterEfficiency))
		add(m, v.LowCut)
	}
}

// chargeLimit is a charger's absorption voltage. One that senses at its own
// terminals stops early by the drop of its cable.
func (s *study) chargeLimit(k int, asSet bool) *limiter {
	src := &s.rig.Charge[k]
	m := &limiter{layer: DailyHigh, kind: chargerKind(src.Kind), device: src.Name, setting: "absorption",
		path: "charge." + src.Name + ".settings.absorption", step: or(src.Step, assumedStep),
		least: or(src.Lowest, 0), most: or(src.Highest, 0)}
	m.gentle = s.cell.DailyHighV.Value * s.series()
	m.th = tolerance.Threshold{High: true, Series: s.series(), Tolerance: or(src.Tolerance, assumedTolerance), Spread: s.info.SpreadHi}
	if src.Senses != "bank" {
		own, total := s.flows.share[k], s.flows.recharge
		if asSet {
			own, total = s.flows.set[k], s.flows.today
		}
		m.th.Drop, m.hows = s.drop(src.Name, own, total)
	}
	return m
}

func chargerKind(kind string) string {
	return map[string]string{"solar": "solar charger", "mains": "mains charger", "alternator": "alternator charger"}[kind]
}

// lowCut is where an inverter or converter stops; it measures at its own input.
func (s *study) lowCut(kind, group, name string, tol *q.Ratio, step *q.Voltage, lowest *q.Voltage, watts float64) *limiter {
	m := &limiter{layer: DailyLow, kind: kind, device: name, setting: "low cut", path: group + "." + name + ".low_cut",
		step: or(step, assumedStep), least: float64(*lowest)}
	m.gentle = s.cell.DailyLowV.Value * s.series()
	m.th = tolerance.Threshold{Series: s.series(), Tolerance: or(tol, assumedTolerance), Spread: s.info.SpreadLo}
	m.th.Drop, m.hows = s.drop(name, watts/m.gentle, s.flows.discharge)
	return m
}

// meterLimit is a cell meter's alarm; one that switches a contactor is the
// disconnect on the side it cuts off.
func (s *study) meterLimit(meter *rig.Meter, high bool) *limiter {
	m := &limiter{kind: "cell meter", device: meter.Name, step: or(meter.Step, assumedMeterStep),
		th: tolerance.Threshold{High: high, Series: 1, Error: or(meter.Tolerance, assumedMeterError)}}
	reach := s.reach(meter.Drives)
	m.layer, m.setting, m.path = AlarmLow, "alarm low", "protection.meters."+meter.Name+".alarm_low"
	if reach.loads {
		m.layer = DisconnLow
	}
	if high {
		m.layer, m.setting, m.path = AlarmHigh, "alarm high", "protection.meters."+meter.Name+".alarm_high"
		if reach.charge {
			m.layer = DisconnHigh
		}
	}
	return m
}

// relayLimit is a voltage relay's threshold. Behind the main cable it sees less
// than the bank under load and more under charge; while it waits, the bank
// moves on.
func (s *study) relayLimit(r *rig.Relay, high, asSet bool) *limiter {
	m := &limiter{kind: "voltage relay", device: r.Name, step: or(r.Step, assumedStep), layer: DisconnLow,
		setting: "low", path: "protection.relays." + r.Name + ".low",
		th: tolerance.Threshold{High: high, Series: s.series(), Tolerance: or(r.Tolerance, assumedTolerance), Spread: s.info.SpreadLo}}
	current, delay := s.flows.discharge, lowDelay(r)
	if asSet {
		delay = float64(r.LowDelay.Value)
	}
	if high {
		m.layer, m.setting, m.path = DisconnHigh, "high", "protection.relays."+r.Name+".high"
		m.th.Spread, current, delay = s.info.SpreadHi, s.flows.recharge, highDelay(r)
		if asSet {
			current, delay = s.flows.today, float64(r.HighDelay.Value)
		}
	}
	if r.Senses == "bus" {
		m.th.Drop, m.hows = s.drop("bus", current, current)
	}
	drift := s.drift(current, delay, high)
	m.th.Drift, m.hows = drift.Num("drift_v"), append(m.hows, drift)
	return m
}

// drift is how far the worst group moves while a relay waits: on the high side
// as it climbs to the harm line, on the low side as it falls to it.
func (s *study) drift(current, delay float64, high bool) figure.Use {
	moved := current * delay / 3600 / s.info.Capacity
	at := s.cell.Curve.SoC(s.cell.MinV.Value)
	change := s.cell.Curve.Voltage(at+moved) - s.cell.Curve.Voltage(at)
	if high {
		at = s.cell.Curve.SoC(s.cell.MaxV.Value)
		change = s.cell.Curve.Voltage(at) - s.cell.Curve.Voltage(at-moved)
	}
	slope := s.cell.Curve.Slope(at)
	if moved > 0 {
		slope = change / moved
	}
	return s.figures.Use(tolerance.DelayDrift, figure.N("current", current), figure.N("delay", delay),
		figure.N("capacity", s.info.Capacity), figure.N("slope", slope))
}

// reach says what a device cuts off by what it drives.
type reach struct{ charge, loads bool }

func (s *study) reach(drives string) reach {
	for _, c := range s.rig.Protection.Contactors {
		if c.Name == drives {
			return reach{charge: c.Opens != "loads", loads: c.Opens != "charge"}
		}
	}
	for _, src := range s.rig.Charge {
		if src.Name == drives {
			return reach{charge: true}
		}
	}
	return reach{}
}
