package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/working"
)

// eachSource runs a check on every charge source.
func (s *study) eachSource(check func(k int, path string) []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for k := range s.rig.Charge {
		list = append(list, check(k, "charge."+s.rig.Charge[k].Name+".settings.")...)
	}
	return list
}

// acidProfile reports whether a source's named profile is made for lead-acid.
func acidProfile(name string) bool { return name == "flooded" || name == "agm" || name == "gel" }

func leadAcidProfile(s *study) []finding.Finding {
	return s.eachSource(func(k int, path string) []finding.Finding {
		profile := s.rig.Charge[k].Settings.Profile
		switch {
		case s.acid() && profile == "lithium":
			return []finding.Finding{mistake(finding.Care, path+"profile", "a lithium profile on a lead-acid bank",
				"it has no float and ends too early; the battery stays part charged and sulphates", "choose the profile for this battery, or set the voltages by hand")}
		case s.acid() || !acidProfile(profile):
			return nil
		}
		return []finding.Finding{mistake(finding.Stop, path+"profile", fmt.Sprintf("profile %s, made for lead-acid", profile),
			"such a profile equalises, floats and raises its voltage in the cold, whatever else is set; each of these can carry a lithium cell past its limit",
			"set the profile to own (or lithium) and every voltage by hand as on the settings sheet")}
	})
}

// beyondHarm reports whether a charge voltage can carry a cell past its limit. A
// lead-acid battery shows no cells, so only the set voltage counts.
func (s *study) beyondHarm(m *limiter) bool {
	if s.acid() {
		return m.cellSet() > s.cell.MaxV.Value+nudge
	}
	return m.band().Beyond > s.cell.MaxV.Value+nudge
}

func chargeBeyondHarm(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.today.members(DailyHigh) {
		if !s.beyondHarm(m) {
			continue
		}
		list = append(list, s.about(m, mistake(finding.Stop, m.path,
			fmt.Sprintf("%s over %g groups is %s a cell; with its accuracy and the spread between groups the highest cell can reach %s, past its limit of %s",
				s.volts(m.th.Setting), m.th.Series, s.volts(m.cellSet()), s.volts(m.band().Beyond), s.volts(s.cell.MaxV.Value)),
			"past its limit a cell plates lithium, gives off gas and can catch fire", s.setTo(m.path, m))))
	}
	return list
}

// setTo is the usual way to mend a voltage.
func (s *study) setTo(path string, m *limiter) string {
	if v, ok := s.recommended(path); ok {
		return fmt.Sprintf("set %s of %s to %s", m.setting, m.device, s.volts(v))
	}
	return fmt.Sprintf("switch %s of %s off", m.setting, m.device)
}

// chargeAboveDaily is a charge voltage that crosses the alarm or disconnect
// where they have to stand, or just wears the cells.
func chargeAboveDaily(s *study) []finding.Finding {
	var list []finding.Finding
	for _, m := range s.today.members(DailyHigh) {
		rec := s.ladder.find(m.path)
		if s.beyondHarm(m) || m.th.Setting <= rec.th.Setting+nudge {
			continue
		}
		limit := s.outside(m)
		if m.band().Beyond > limit+nudge && !s.acid() {
			list = append(list, s.by(s.about(m, mistake(finding.Care, m.path,
				fmt.Sprintf("%s lets the highest cell reach %s, but the next layer must be able to act from %s", s.volts(m.th.Setting), s.volts(m.band().Beyond), s.volts(limit)),
				"charging would set off alarm or disconnect in ordinary use, and a layer that cries wolf gets switched off", s.setTo(m.path, m))), s.outerBands(m)...))
			continue
		}
		list = append(list, s.about(m, mistake(finding.Note, m.path,
			fmt.Sprintf("%s is %s a cell, above the %s advised for every day", s.volts(m.th.Setting), s.volts(m.cellSet()), s.volts(rec.cellSet())),
			"it fits inside the layers, but resting near full ages the cells faster", s.setTo(m.path, m)), rec))
	}
	return list
}

// outside is where the layers outside a daily limit begin to act: as advised,
// or as set today where those are in order and leave more room.
func (s *study) outside(m *limiter) float64 {
	advised, today := s.advised(m), s.harmOf(m)
	for _, name := range outer(m) {
		sound := s.sound(name)
		if len(sound) < len(s.ladder.by[name]) {
			sound = s.ladder.by[name]
		}
		today = innermost(sound, today)
	}
	if s.farther(m, today, advised) {
		return today
	}
	return advised
}

// advised is where the layers outside a daily limit begin to act as advised.
func (s *study) advised(m *limiter) float64 {
	limit := s.harmOf(m)
	for _, name := range outer(m) {
		limit = innermost(s.ladder.by[name], limit)
	}
	return limit
}

// outer are the layers outside the daily limits on the side of m.
func outer(m *limiter) []string {
	if m.th.High {
		return highInward[:2]
	}
	return lowInward[:2]
}

// sound are the members of an outer layer that are in order as set today.
func (s *study) sound(name string) []*limiter {
	var list []*limiter
	for _, m := range s.today.by[name] {
		alarm := name == AlarmHigh || name == AlarmLow
		if !s.farther(m, m.band().Beyond, s.harmOf(m)) && !(alarm && s.late(m)) {
			list = append(list, m)
		}
	}
	return list
}

func compensationInCold(s *study) []finding.Finding {
	if s.acid() {
		return nil
	}
	return s.eachSource(func(k int, path string) []finding.Finding {
		set := &s.rig.Charge[k].Settings
		slope, on := value(set.Compensation)
		voltage, known := value(set.Absorption)
		if !on || slope == 0 {
			return nil
		}
		path += "compensation"
		if !known {
			return []finding.Finding{mistake(finding.Care, path, "temperature compensation is on", "it raises the charge voltage in the cold; a lithium cell's limit stays where it is", "switch compensation off")}
		}
		coldest, where := s.coldest()
		u := s.figures.Use(cell.CompensatedVoltage, figure.N("voltage", voltage), figure.N("slope", slope), figure.N("temperature", coldest))
		m := *s.today.find("charge." + s.rig.Charge[k].Name + ".settings.absorption")
		m.th.Setting = u.Num("voltage_v")
		severity := finding.Care
		if s.beyondHarm(&m) {
			severity = finding.Stop
		}
		f := mistake(severity, path,
			fmt.Sprintf("at %s, %s, compensation moves %s to %s: %s a cell", s.degrees(coldest), where, s.volts(voltage), s.volts(m.th.Setting), s.volts(m.cellSet())),
			"a lithium cell's limit does not move with temperature, and in the cold it stands a high voltage least", "switch compensation off")
		return []finding.Finding{s.by(f.By(s.routeCold()), u, s.bandUse(&m), s.limits())}
	})
}

// coldest is the lowest temperature the bank meets on its route, with the
// place; frost is taken where the route does not say.
func (s *study) coldest() (float64, string) {
	lowest, place := 0.0, "taken because the route does not say how cold it gets"
	known := false
	for _, stay := range s.rig.Route {
		if stay.Coldest == nil {
			continue
		}
		if t := float64(*stay.Coldest); !known || t < lowest {
			lowest, place, known = t, "the coldest of "+stay.Name, true
		}
	}
	return lowest, place
}

func equaliseOn(s *study) []finding.Finding {
	return s.eachSource(func(k int, path string) []finding.Finding {
		v, on := value(s.rig.Charge[k].Settings.Equalise)
		switch {
		case !on || s.acid() && s.cell.Acid.EqualiseV.Value > 0:
			return nil
		case s.acid():
			f := mistake(finding.Care, path+"equalise", fmt.Sprintf("equalising at %s on a sealed battery", s.volts(v)),
				"it vents water that cannot be put back", "switch equalising off, unless the battery's maker asks for it")
			return []finding.Finding{f.By(working.Stated(working.Of("equalise", v, q.Volts)))}
		}
		f := mistake(finding.Stop, path+"equalise",
			fmt.Sprintf("equalising is on at %s, %s a cell", s.volts(v), s.volts(v/s.series())),
			fmt.Sprintf("it drives every cell towards that voltage for hours; the limit is %s", s.volts(s.cell.MaxV.Value)), "switch equalising off, and check that the device stays so after a restart")
		f = f.By(working.Stated(working.Of("equalise", v, q.Volts)), working.Found(fmt.Sprintf("over the %g groups in series", s.series()), working.Of("a cell", v/s.series(), q.Volts)))
		return []finding.Finding{s.by(f, s.limits())}
	})
}

func floatTooHigh(s *study) []finding.Finding {
	return s.eachSource(func(k int, path string) []finding.Finding {
		v, on := value(s.rig.Charge[k].Settings.Float)
		if !on {
			return nil
		}
		path += "float"
		if s.acid() {
			return s.acidFloat(v, path)
		}
		m := *s.ladder.find("charge." + s.rig.Charge[k].Name + ".settings.absorption")
		m.th.Setting = v
		return s.lithiumFloat(&m, path)
	})
}

func (s *study) lithiumFloat(m *limiter, path string) []finding.Finding {
	rest := s.storage()
	storage := rest.Num("voltage_v")
	found := fmt.Sprintf("float holds %s, %s a cell, for as long as the source is there", s.volts(m.th.Setting), s.volts(m.cellSet()))
	mend := fmt.Sprintf("switch float off; if it cannot be, set it to %s or less", s.volts(storage))
	switch {
	case m.band().Beyond > s.outside(m)+nudge:
		return []finding.Finding{s.by(mistake(finding.Stop, path, found, fmt.Sprintf(
			"the highest cell can stand at %s for days, past where alarm and disconnect must act (%s)", s.volts(m.band().Beyond), s.volts(s.outside(m))), mend),
			append([]figure.Use{s.bandUse(m), rest}, s.outerBands(m)...)...)}
	case m.th.Setting <= storage+nudge:
		return []finding.Finding{s.by(mistake(finding.Note, path, found, "low enough to do no harm, since the bank rests near half full there", mend), s.bandUse(m), rest)}
	}
	uses := []figure.Use{s.bandUse(m), rest}
	because := "a lithium bank that is held full ages faster, and nothing is gained by it"
	if u, ok := s.stress(m.cellSet(), storage/s.series()); ok {
		because += fmt.Sprintf(": at rest about %.1f times as fast as at %s a cell", u.Num("factor"), s.volts(storage/s.series()))
		uses = append(uses, u)
	}
	return []finding.Finding{s.by(mistake(finding.Care, path, found, because, mend), uses...)}
}

func (s *study) acidFloat(v float64, path string) []finding.Finding {
	if v <= s.cell.Acid.AbsorptionV.Value*s.series()-nudge {
		return nil
	}
	volts := s.figures.Use(cell.AcidCharging, figure.T("cell", s.cell.Name), figure.N("cells", s.series()))
	return []finding.Finding{s.by(mistake(finding.Care, path, fmt.Sprintf("float at %s is no lower than absorption, %s", s.volts(v), s.volts(s.cell.Acid.AbsorptionV.Value*s.series())),
		"held for days it boils the battery dry", fmt.Sprintf("set float to %s", s.volts(floorTo(s.cell.Acid.FloatV.Value*s.series(), assumedStep)))).By(working.Stated(working.Of("float", v, q.Volts))), volts)}
}
