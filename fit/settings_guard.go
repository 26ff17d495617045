package fit

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/setpoint"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Delays of a voltage relay, s: short on high voltage, long enough on low voltage
// to ride out a motor's start.
func highDelay(r *rig.Relay) float64 { return within(r.HighDelay, setpoint.HighDelay) }
func lowDelay(r *rig.Relay) float64  { return within(r.LowDelay, setpoint.LowDelay) }

func within(today rig.Setting[q.Duration], s setpoint.Span) float64 {
	return kept(today, s.Least, s.Most, s.Else)
}

// lowCutSheet is the sheet of an inverter or converter.
func (s *study) lowCutSheet(path string, cut, restart rig.Setting[q.Voltage]) []Setting {
	m := s.ladder.find(path + ".low_cut")
	p := &page{kind: m.kind, device: m.device, path: path}
	p.line("low_cut", m.th.Setting, todayOf(cut), q.Volts, s.whyDaily(m, "empty"), s.placed(m)...)
	sag := s.sag(m, s.flows.discharge)
	again := s.restart(m, sag, "empty")
	least := again.Num("restart_v")
	p.line("restart", keptStep(restart, m.step, least, s.dailyHigh()*s.series()-sag.Num("hysteresis_v"), least), todayOf(restart), q.Volts, fmt.Sprintf(
		"about a tenth charged again, and further up than the %s the voltage recovers when the load stops", s.volts(sag.Num("sag_v"))), again, sag)
	return p.lines
}

// relaySheet is the sheet of a voltage relay. Its resets lie inside the layer
// further in, and farther from the trip than the voltage springs back when the
// current stops.
func (s *study) relaySheet(r *rig.Relay) []Setting {
	p := &page{kind: "voltage relay", device: r.Name, path: "protection.relays." + r.Name}
	s.relayHigh(p, r)
	s.relayLow(p, r)
	return p.lines
}

func (s *study) relayHigh(p *page, r *rig.Relay) {
	m := s.ladder.find(p.path + ".high")
	if m == nil {
		s.noSide(p, "what it drives does not cut off charging", "high", r.High, "high_reset", r.HighReset, "high_delay", r.HighDelay)
		return
	}
	p.line("high", m.th.Setting, todayOf(r.High), q.Volts, s.whyOuter(m), s.placed(m)...)
	sag := s.sag(m, s.flows.recharge)
	reset := m.th.Setting - sag.Num("hysteresis_v")
	for _, d := range s.ladder.members(DailyHigh) {
		reset = min(reset, d.band().Inner*s.series())
	}
	most := floorTo(reset, m.step)
	p.line("high_reset", keptStep(r.HighReset, m.step, s.dailyLow()*s.series(), most, most), todayOf(r.HighReset), q.Volts, fmt.Sprintf(
		"below where charging ends, and more than the %s the voltage falls when charging stops", s.volts(sag.Num("sag_v"))), sag)
	p.line("high_delay", highDelay(r), todayOf(r.HighDelay), q.Seconds, "short: at the top there is no time to lose", s.span("relay high"))
}

func (s *study) relayLow(p *page, r *rig.Relay) {
	m := s.ladder.find(p.path + ".low")
	if m == nil {
		s.noSide(p, "what it drives does not cut off the loads", "low", r.Low, "low_reset", r.LowReset, "low_delay", r.LowDelay)
		return
	}
	p.line("low", m.th.Setting, todayOf(r.Low), q.Volts, s.whyOuter(m), s.placed(m)...)
	sag := s.sag(m, s.flows.discharge)
	reset := m.th.Setting + sag.Num("hysteresis_v")
	for _, d := range s.ladder.members(DailyLow) {
		reset = max(reset, d.th.Setting)
	}
	least := ceilTo(reset, m.step)
	p.line("low_reset", keptStep(r.LowReset, m.step, least, max(least, s.dailyHigh()*s.series()), least), todayOf(r.LowReset), q.Volts, fmt.Sprintf(
		"back in the daily range, and more than the %s the voltage recovers when the loads stop", s.volts(sag.Num("sag_v"))), sag)
	p.line("low_delay", lowDelay(r), todayOf(r.LowDelay), q.Seconds, "long enough for a motor to start, short enough for a bank that is nearly empty", s.span("relay low"))
}

func (s *study) noSide(p *page, why, trip string, today rig.Setting[q.Voltage], reset string, resetToday rig.Setting[q.Voltage],
	delay string, delayToday rig.Setting[q.Duration]) {
	p.line(trip, Off, todayOf(today), q.Volts, why)
	p.line(reset, Off, todayOf(resetToday), q.Volts, why)
	p.line(delay, Off, todayOf(delayToday), q.Seconds, why)
}

// span explains a time that is a habit.
func (s *study) span(of string) figure.Use {
	return s.figures.Use(setpoint.SettingTime, figure.T("of", of))
}

// limits is what is taken as true of the cell.
func (s *study) limits() figure.Use {
	return s.figures.Use(cell.CellLimits, figure.T("cell", s.cell.Name))
}

// whyOuter says how an alarm or disconnect came about.
func (s *study) whyOuter(m *limiter) string {
	if m.gentler(m.th.Setting, m.fits) == m.th.Setting && math.Abs(m.th.Setting-m.fits) > nudge {
		return fmt.Sprintf("%s a cell: set in from %s so that nothing stops working or runs empty before it", s.volts(m.cellSet()), s.volts(m.fits))
	}
	b := m.band()
	return fmt.Sprintf("as far out as its accuracy permits: the cell nearest to harm is between %s and %s when it acts", s.volts(b.Low), s.volts(b.High))
}

// meterSheet is the sheet of a cell meter.
func (s *study) meterSheet(meter *rig.Meter) []Setting {
	p := &page{kind: "cell meter", device: meter.Name, path: "protection.meters." + meter.Name}
	high, low := s.ladder.find(p.path+".alarm_high"), s.ladder.find(p.path+".alarm_low")
	p.line("alarm_high", high.th.Setting, todayOf(meter.AlarmHigh), q.Volts, s.whyOuter(high), s.placed(high)...)
	p.line("alarm_low", low.th.Setting, todayOf(meter.AlarmLow), q.Volts, s.whyOuter(low), s.placed(low)...)
	u := s.figures.Use(setpoint.SpreadAlarm, figure.N("spread", max(s.info.SpreadHi, s.info.SpreadLo)), figure.N("error", high.th.Error), figure.N("step", high.step))
	spread := u.Num("set_v")
	p.line("spread", keptStep(meter.Spread, high.step, u.Num("least_v"), max(spread, 0.050), spread), todayOf(meter.Spread), q.Volts,
		fmt.Sprintf("clear of the spread there is, %s, and of two readings' error", s.volts(max(s.info.SpreadHi, s.info.SpreadLo))), u)
	p.line("hot", min(s.cell.AlarmC.Value, kept(meter.Hot, s.warm.hotStop, s.cell.AlarmC.Value, s.cell.AlarmC.Value)), todayOf(meter.Hot), q.Celsius,
		fmt.Sprintf("time to look before %s, where the bank is disconnected at the latest", s.degrees(s.cell.HarmC.Value)), s.limits())
	return p.lines
}
