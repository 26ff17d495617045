package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Habits of charging lithium; source.SettingHabit.
const (
	absorptionTime = 3600.0 // s, the longest at the charge voltage
	tailRate       = 0.05   // 1/h, charging ends below this current over capacity
	tailShare      = 0.2    // of its own current limit, so that a small charger ends too
	restartDepth   = 0.10   // of the charge given back before charging starts again
)

// chargerSheet is the sheet of one charge source.
func (s *study) chargerSheet(k int) []Setting {
	src := &s.rig.Charge[k]
	p := &page{kind: chargerKind(src.Kind), device: src.Name, path: "charge." + src.Name + ".settings"}
	if s.acid() {
		s.acidVoltages(p, k)
	} else {
		s.lithiumVoltages(p, k)
	}
	s.currentLine(p, k)
	s.frostLine(p, src)
	return p.lines
}

func (s *study) lithiumVoltages(p *page, k int) {
	set := &s.rig.Charge[k].Settings
	m := s.ladder.find(p.path + ".absorption")
	profile := "own"
	if set.Profile == "lithium" {
		profile = "lithium"
	}
	p.line("profile", profile, word(set.Profile), nil, "every voltage below is set by hand; a profile for lead-acid brings equalising, float and compensation with it")
	p.line("absorption", m.th.Setting, todayOf(set.Absorption), q.Volts, s.whyDaily(m, "full"), m.hows...)
	p.line("absorption_time", kept(set.AbsorptionTime, absorptionTime/2, absorptionTime, absorptionTime), todayOf(set.AbsorptionTime), q.Seconds,
		"a lithium cell needs no long absorption; the tail current usually ends it earlier")
	tail := s.tail(k)
	p.line("tail", tail, todayOf(set.Tail), q.Amperes, fmt.Sprintf(
		"charging ends at about a twentieth of the capacity, %s, and at no more than a fifth of this charger's own current", s.amps(tailRate*s.info.Capacity)))
	storage := s.cell.Curve.Voltage(s.cell.StorageSoC.Value) * s.series()
	p.line("float", Off, todayOf(set.Float), q.Volts, fmt.Sprintf(
		"a lithium bank is not held full; where float cannot be switched off, set the lowest the device allows, %s or less", s.volts(storage)))
	p.line("equalise", Off, todayOf(set.Equalise), q.Volts, "equalising is for lead-acid; it would carry every cell above its limit")
	p.line("compensation", Off, todayOf(set.Compensation), q.VoltsPerKelvin, "a lithium cell's limit does not move with temperature")
	restart, how := s.restartBelow(m)
	p.line("restart", restart, todayOf(set.Restart), q.Volts,
		"charging starts again when about a tenth has been used, so the bank rests below full", how...)
}

// whyDaily says how a daily limit came about.
func (s *study) whyDaily(m *limiter, end string) string {
	each := s.volts(m.cellSet())
	switch {
	case m.pushed():
		return fmt.Sprintf("%s a cell: the most that stays inside the next layer with every tolerance against you", each)
	case s.wished(m.th.High):
		return fmt.Sprintf("%s a cell: as you want it", each)
	case m.th.High:
		return fmt.Sprintf("%s a cell: short of %s, for a longer life", each, end)
	}
	return fmt.Sprintf("%s a cell: short of %s, before the curve falls steeply and groups drift apart", each, end)
}

// tail is the current at which charging ends, A.
func (s *study) tail(k int) float64 {
	tail := min(tailRate*s.info.Capacity, tailShare*s.flows.share[k])
	if tail >= 1 {
		return floorTo(tail, 0.5)
	}
	return max(0.1, floorTo(tail, 0.1))
}

// restartBelow is the voltage at which charging starts again: a tenth of the
// charge lower, and clear of the sag of this much current.
func (s *study) restartBelow(m *limiter) (float64, []figure.Use) {
	curve := s.cell.Curve
	depth := curve.Voltage(curve.SoC(m.cellSet())-restartDepth) * s.series()
	sag := s.sag(m, s.flows.recharge)
	return floorTo(min(depth, m.th.Setting-sag.Num("hysteresis_v")), m.step), []figure.Use{sag}
}

// sag is how far the voltage a device measures springs back when a current
// stops: in the bank and in the cable to where it measures.
func (s *study) sag(m *limiter, current float64) figure.Use {
	ohm := s.info.Ohm
	if current > 0 {
		ohm += m.th.Drop / current
	}
	return s.figures.Use(tolerance.Hysteresis, figure.N("current", current), figure.N("resistance", ohm), figure.N("margin", tolerance.SagMargin))
}

// acidVoltages are the handbook's, over all cells.
func (s *study) acidVoltages(p *page, k int) {
	set := &s.rig.Charge[k].Settings
	a, n := s.cell.Acid, s.series()
	m := s.ladder.find(p.path + ".absorption")
	profile := set.Profile
	if profile == "" || profile == "lithium" {
		profile = "own"
	}
	p.line("profile", profile, word(set.Profile), nil, "as the battery's maker names it, or set by hand")
	p.line("absorption", m.th.Setting, todayOf(set.Absorption), q.Volts, s.perCell(a.AbsorptionV.Value))
	p.line("absorption_time", kept(set.AbsorptionTime, 2*3600, 4*3600, 2*3600), todayOf(set.AbsorptionTime), q.Seconds, "lead-acid takes its last fifth slowly and suffers when it is left part charged")
	p.line("tail", max(0.1, floorTo(0.02*s.info.Capacity, 0.1)), todayOf(set.Tail), q.Amperes, "about a fiftieth of the capacity: full")
	p.line("float", m.inward(a.FloatV.Value*n), todayOf(set.Float), q.Volts, s.perCell(a.FloatV.Value)+"; it wants to be held full")
	if a.EqualiseV.Value > 0 {
		p.line("equalise", m.inward(a.EqualiseV.Value*n), todayOf(set.Equalise), q.Volts, s.perCell(a.EqualiseV.Value)+", now and then, two hours at most, watched")
	} else {
		p.line("equalise", Off, todayOf(set.Equalise), q.Volts, "sealed: it would vent water it cannot get back")
	}
	p.line("compensation", a.CompensationVPerK.Value*n, todayOf(set.Compensation), q.VoltsPerKelvin,
		fmt.Sprintf("%s a cell, over %g cells", q.VoltsPerKelvin.Text(a.CompensationVPerK.Value, s.sys), n))
	p.line("restart", floorTo(a.FloatV.Value*n-0.05*n, m.step), todayOf(set.Restart), q.Volts, "a little below float")
}

func (s *study) perCell(v float64) string { return s.volts(v) + " a cell at 25 °C" }

// currentLine shares what the cells take between the sources.
func (s *study) currentLine(p *page, k int) {
	set := &s.rig.Charge[k].Settings
	use := s.chargeLimitUse()
	because := fmt.Sprintf("its full current; all sources together stay within the %s the cells take when warm", s.amps(s.flows.allowed))
	if s.flows.share[k] < s.flows.limits[k]-nudge {
		because = fmt.Sprintf("its share of the %s the cells take when warm; all sources together could give %s", s.amps(s.flows.allowed), s.amps(s.flows.charge))
	}
	p.line("current", s.flows.share[k], todayOf(set.Current), q.Amperes, because, use)
}

// chargeLimitUse explains the charge current allowed, at 25 °C.
func (s *study) chargeLimitUse() figure.Use {
	return s.figures.Use(cell.ChargeLimit, figure.T("cell", s.cell.Name), figure.N("capacity", s.info.Capacity), figure.N("temperature", 25.0))
}

func (s *study) frostLine(p *page, src *rig.Source) {
	today := todayOf(src.Settings.FrostLock)
	switch {
	case s.acid():
		p.line("frost_lock", Off, today, q.Celsius, "lead-acid may be charged in frost; what it must not be is empty")
	case src.Thermometer == "bank":
		p.line("frost_lock", kept(src.Settings.FrostLock, s.warm.least, lockMost, s.warm.least), today, q.Celsius, fmt.Sprintf(
			"charging a cell below %s plates lithium; %s leaves room for the accuracy of its sensor", s.degrees(s.cell.ChargeMinC.Value), s.degrees(s.warm.least)))
	case src.Thermometer == "own":
		p.line("frost_lock", kept(src.Settings.FrostLock, s.warm.least, lockMost, s.warm.least), today, q.Celsius,
			"it feels its own case, not the bank: worth setting, but a cut-out at the bank has to stop it")
	default:
		p.line("frost_lock", Off, today, q.Celsius, "it has no thermometer: a cut-out at the bank has to stop it")
	}
}

// word is a setting that is a word, as the file states it.
func word(w string) any {
	if w == "" {
		return notGiven
	}
	return w
}
