package fit

import (
	"ampstead/figure"
	"ampstead/physics/setpoint"
	"ampstead/rig"
)

// warmth is the ladder of temperatures, °C.
type warmth struct {
	least          float64      // lowest frost lock that leaves room for its accuracy
	lock, lockErr  float64      // no charging below, and its accuracy
	on, off, error float64      // heater thermostat, and its accuracy
	hotStop        float64      // charging stops above
	hows           []figure.Use // behind the lock
	heat, hot      []figure.Use // behind the heater's marks, and behind the stop in heat
	marks          []Mark
}

// warmthOf stacks the temperature marks: the frost limit, the lock far enough
// above it for its own tolerance, and the heater above the lock, so that a bank
// the heater holds can be charged.
func (s *study) warmthOf() warmth {
	limit := s.cell.ChargeMinC.Value
	w := warmth{lockErr: s.lockTolerance()}
	lock := s.figures.Use(setpoint.FrostLock, figure.N("limit", limit), figure.N("tolerance", w.lockErr))
	w.least = lock.Num("least_c")
	w.lock = s.highestLock(w.least)
	hot := s.figures.Use(setpoint.HotStop, figure.N("limit", s.cell.ChargeMaxC.Value), figure.N("tolerance", w.lockErr))
	w.hotStop = hot.Num("stop_c")
	w.hows, w.hot = []figure.Use{lock, s.limits()}, []figure.Use{hot, s.limits()}
	if h := s.rig.Heater; h != nil {
		w.error = or(h.Tolerance, assumedWarmth)
		least := setpoint.LeastOn(w.lock, w.lockErr, w.error)
		w.on = kept(h.On, least, setpoint.OnMost, least)
		marks := s.figures.Use(setpoint.HeaterMarks, figure.N("lock", w.lock), figure.N("lock-tolerance", w.lockErr), figure.N("tolerance", w.error), figure.N("on", w.on))
		off := marks.Num("least_off_c")
		w.off = kept(h.Off, off, setpoint.OffMost, off)
		w.heat = []figure.Use{marks, lock}
	}
	w.marks = s.marksOf(w)
	return w
}

// highestLock is the lock that holds longest, of those kept as they are set.
func (s *study) highestLock(least float64) float64 {
	lock := least
	for k := range s.rig.Protection.Cutouts {
		if c := &s.rig.Protection.Cutouts[k]; s.stopsCharge(c) {
			lock = max(lock, kept(c.Below, least, setpoint.LockMost, least))
		}
	}
	for k := range s.rig.Charge {
		lock = max(lock, kept(s.rig.Charge[k].Settings.FrostLock, least, setpoint.LockMost, least))
	}
	return lock
}

// lockTolerance is the coarsest accuracy of what locks charging in frost.
func (s *study) lockTolerance() float64 {
	worst, any := 0.0, false
	for k := range s.rig.Protection.Cutouts {
		c := &s.rig.Protection.Cutouts[k]
		if s.stopsCharge(c) {
			worst, any = max(worst, or(c.Tolerance, assumedWarmth)), true
		}
	}
	if !any {
		return assumedWarmth
	}
	return worst
}

// stopsCharge reports whether a cut-out acts on any charge source.
func (s *study) stopsCharge(c *rig.Cutout) bool {
	for _, src := range s.rig.Charge {
		if s.stops(c, &src) {
			return true
		}
	}
	return false
}

// stops reports whether a cut-out can stop this source: told to and able to, or
// by opening a contactor between source and bank.
func (s *study) stops(c *rig.Cutout, src *rig.Source) bool {
	if c.Stops == "charge" || c.Stops == src.Name {
		return src.StopInput
	}
	for _, k := range s.rig.Protection.Contactors {
		if k.Name == c.Stops {
			return k.Opens != "loads"
		}
	}
	return false
}

func (s *study) marksOf(w warmth) []Mark {
	c := s.cell
	marks := []Mark{}
	known := []figure.Use{s.limits()}
	add := func(name, device string, t, tol float64, because string, how []figure.Use) {
		marks = append(marks, Mark{Name: name, Device: device, TempC: tidy(t), LowC: tidy(t - tol), HighC: tidy(t + tol), Because: because, How: how})
	}
	if !s.acid() {
		add("frost limit", "cell", c.ChargeMinC.Value, 0, "charging below it plates metallic lithium, which does not come off again", known)
		add("frost lock", s.lockDevice(func(c *rig.Cutout) bool { return c.Below.On() }), w.lock, w.lockErr, "far enough above the frost limit for the accuracy of what locks, "+s.kelvins(w.lockErr), w.hows)
		if h := s.rig.Heater; h != nil {
			add("heater on", h.Name, w.on, w.error, "above the frost lock with both accuracies against you, so a bank held by the heater can be charged", w.heat)
			add("heater off", h.Name, w.off, w.error, "a step above, so that the heater does not chatter", w.heat)
		}
	}
	add("charge stop, hot", s.lockDevice(func(c *rig.Cutout) bool { return c.Above.On() }), w.hotStop, w.lockErr, "before the limit of "+s.degrees(c.ChargeMaxC.Value)+" for charging", w.hot)
	add("alarm, hot", "cell meter", c.AlarmC.Value, 0, "time to look before the disconnect", known)
	add("harm, hot", "cell", c.HarmC.Value, 0, "disconnect at the latest", known)
	return marks
}

// lockDevice names the cut-out that stops charging on one side of temperature,
// as far as there is one.
func (s *study) lockDevice(acts func(*rig.Cutout) bool) string {
	for k := range s.rig.Protection.Cutouts {
		if c := &s.rig.Protection.Cutouts[k]; s.stopsCharge(c) && acts(c) {
			return c.Name
		}
	}
	return "charge sources"
}
