package drill

import "ampstead/device"

// wants notes loads that go without, and sources kept from charging, while
// nothing about the bank asks for it. To be without light is a sign.
func (w *watch) wants(t *turn, s *device.Sense, dt float64) {
	missing := t.missing()
	if missing {
		w.tell(s.Time)
	}
	l := &t.p.limits
	easy := s.LowV > w.enough(l) && s.HighV < l.easyHigh && s.HotC < l.coolC
	if !easy || !missing && !t.keptOff(s) && !t.keptCold(s) {
		w.wantS = 0
		return
	}
	if w.wantS += dt; w.wantS >= missS {
		w.lost = true
	}
}

// enough is the voltage of a cell above which loads may have what they ask for:
// once something has cut off on low voltage, that at which it comes back.
func (w *watch) enough(l *limits) float64 {
	for k := range w.acts {
		if d := &w.acts[k]; d.layer == "daily low" || d.layer == "disconnect low" {
			return l.easyLow
		}
	}
	return l.dailyLow
}

// keptCold reports whether something keeps the heater from a bank that is cold.
func (t *turn) keptCold(s *device.Sense) bool {
	d := t.a.Pad
	return d != nil && d.PowerW > 0 && s.HotC < d.OnC && t.e.State(t.a.Heater) == device.Stopped
}

// missing reports whether something asks for power and gets less than half.
func (t *turn) missing() bool {
	for i := range t.a.Converters {
		if d := t.a.Converters[i].Device; d.DeliveredW < d.DemandW/2 {
			return true
		}
	}
	for i := range t.a.Inverters {
		if d := t.a.Inverters[i].Device; d.DeliveredW < d.DemandW/2 {
			return true
		}
	}
	for i := range t.a.Direct {
		if x := &t.a.Direct[i]; x.Device.W > 0 && t.e.PartA(x.Part) == 0 {
			return true
		}
	}
	return false
}

// keptOff reports whether a source has something to give, is told not to, and
// the bank would take it.
func (t *turn) keptOff(s *device.Sense) bool {
	l := &t.p.limits
	if s.ColdC < l.lockC || s.HighV > l.easyHigh-2*easyV {
		return false
	}
	for i := range t.a.Chargers {
		c := &t.a.Chargers[i]
		if state := t.e.State(c.Part); c.Device.SupplyW > 0 && (state == device.Stopped || state == device.FrostLocked) {
			return true
		}
	}
	return false
}

// supplied reports whether any source has something to give.
func (t *turn) supplied() bool {
	for i := range t.a.Chargers {
		if t.a.Chargers[i].Device.SupplyW > 0 {
			return true
		}
	}
	return false
}
