package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/setpoint"
	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/rig"
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
	p.line("absorption", m.th.Setting, todayOf(set.Absorption), q.Volts, s.whyDaily(m, "full"), s.placed(m)...)
	hold, why := s.timeOf(set.AbsorptionTime, setpoint.AbsorbLithium, "absorption lithium")
	p.line("absorption_time", hold, todayOf(set.AbsorptionTime), q.Seconds,
		"a lithium cell needs no long absorption; the tail current usually ends it earlier", why)
	tail := s.figures.Use(setpoint.TailCurrent, figure.N("capacity", s.info.Capacity), figure.N("current", s.flows.share[k]))
	p.line("tail", tail.Num("tail_a"), todayOf(set.Tail), q.Amperes, fmt.Sprintf(
		"charging ends at about a twentieth of the capacity, %s, and at no more than a fifth of this charger's own current", s.amps(setpoint.TailRate*s.info.Capacity)), tail)
	storage := s.storage()
	p.line("float", Off, todayOf(set.Float), q.Volts, fmt.Sprintf(
		"a lithium bank is not held full; where float cannot be switched off, set the lowest the device allows, %s or less", s.volts(storage.Num("voltage_v"))), storage)
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

// storage is the voltage float may have where it cannot be switched off.
func (s *study) storage() figure.Use {
	return s.figures.Use(setpoint.StorageVoltage, figure.T("cell", s.cell.Name), figure.N("series", s.series()))
}

// placed explains how a threshold was placed: the layer's setting, and the drops
// and drifts that went into it.
func (s *study) placed(m *limiter) []figure.Use {
	if m.put.Step == 0 {
		return m.hows
	}
	p := m.put
	u := s.figures.Use(tolerance.LayerSetting, figure.N("limit", p.Limit), figure.N("preferred", p.Gentle), figure.N("series", m.th.Series),
		figure.N("tolerance", m.th.Tolerance), figure.N("error", m.th.Error), figure.N("spread", m.th.Spread), figure.N("drift", m.th.Drift),
		figure.N("step", p.Step), figure.N("least", p.Least), figure.N("most", p.Most), figure.N("raise", p.Raise), figure.T("side", sideOf(m)))
	return append([]figure.Use{u}, m.hows...)
}

func sideOf(m *limiter) string {
	if m.th.High {
		return "high"
	}
	return "low"
}

// timeOf keeps a time of today inside its span, and explains the span.
func (s *study) timeOf(today rig.Setting[q.Duration], span setpoint.Span, of string) (float64, figure.Use) {
	return within(today, span), s.span(of)
}

// restartBelow is the voltage at which charging starts again: a tenth of the
// charge lower, and clear of the sag of this much current.
func (s *study) restartBelow(m *limiter) (float64, []figure.Use) {
	sag := s.sag(m, s.flows.recharge)
	u := s.restart(m, sag, "full")
	return u.Num("restart_v"), []figure.Use{u, sag}
}

// restart is the figure of where something that stopped starts again.
func (s *study) restart(m *limiter, sag figure.Use, side string) figure.Use {
	return s.figures.Use(setpoint.RestartVoltage, figure.T("cell", s.cell.Name), figure.N("setting", m.th.Setting), figure.N("series", m.th.Series),
		figure.N("depth", setpoint.RestartDepth), figure.N("hysteresis", sag.Num("hysteresis_v")), figure.N("step", m.step), figure.T("side", side))
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
	p.line("absorption", m.th.Setting, todayOf(set.Absorption), q.Volts, s.perCell(a.AbsorptionV.Value), s.placed(m)...)
	hold, why := s.timeOf(set.AbsorptionTime, setpoint.AbsorbAcid, "absorption lead-acid")
	p.line("absorption_time", hold, todayOf(set.AbsorptionTime), q.Seconds, "lead-acid takes its last fifth slowly and suffers when it is left part charged", why)
	tail := s.figures.Use(setpoint.AcidTail, figure.N("capacity", s.info.Capacity))
	p.line("tail", tail.Num("tail_a"), todayOf(set.Tail), q.Amperes, "about a fiftieth of the capacity: full", tail)
	volts := s.figures.Use(cell.AcidCharging, figure.T("cell", s.cell.Name), figure.N("cells", n))
	p.line("float", m.inward(a.FloatV.Value*n), todayOf(set.Float), q.Volts, s.perCell(a.FloatV.Value)+"; it wants to be held full", volts)
	if a.EqualiseV.Value > 0 {
		p.line("equalise", m.inward(a.EqualiseV.Value*n), todayOf(set.Equalise), q.Volts, s.perCell(a.EqualiseV.Value)+", now and then, two hours at most, watched", volts)
	} else {
		p.line("equalise", Off, todayOf(set.Equalise), q.Volts, "sealed: it would vent water it cannot get back")
	}
	p.line("compensation", a.CompensationVPerK.Value*n, todayOf(set.Compensation), q.VoltsPerKelvin,
		fmt.Sprintf("%s a cell, over %g cells", q.VoltsPerKelvin.Text(a.CompensationVPerK.Value, s.sys), n), volts)
	p.line("restart", floorTo(a.FloatV.Value*n-0.05*n, m.step), todayOf(set.Restart), q.Volts, "a little below float: 50 mV a cell", volts)
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
	p.line("current", s.flows.share[k], todayOf(set.Current), q.Amperes, because, s.shareUse(k), use)
}

// shareUse explains what one source is limited to.
func (s *study) shareUse(k int) figure.Use {
	return s.figures.Use(setpoint.ChargeShare, figure.N("limit", s.flows.limits[k]), figure.N("total", s.flows.charge), figure.N("allowed", s.flows.allowed))
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
		p.line("frost_lock", kept(src.Settings.FrostLock, s.warm.least, setpoint.LockMost, s.warm.least), today, q.Celsius, fmt.Sprintf(
			"charging a cell below %s plates lithium; %s leaves room for the accuracy of its sensor", s.degrees(s.cell.ChargeMinC.Value), s.degrees(s.warm.least)), s.warm.hows...)
	case src.Thermometer == "own":
		p.line("frost_lock", kept(src.Settings.FrostLock, s.warm.least, setpoint.LockMost, s.warm.least), today, q.Celsius,
			"it feels its own case, not the bank: worth setting, but a cut-out at the bank has to stop it", s.warm.hows...)
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
