package drill

import (
	"ampstead/device"
	"ampstead/engine"
)

// watch follows a run and keeps what its outcome is made of.
type watch struct {
	harm    string
	harmAt  float64 // s, -1 before
	frostAh float64
	overS   float64 // how long a cell has carried more than it bears
	peak    float64 // worst share of a cell while current flowed

	acts   []deed
	trips  int     // times a guard has come and gone
	signAt float64 // first sign a person would notice, -1 before
	wantS  float64 // how long something has gone without needlessly
	lost   bool
	danger bool // a cell was in danger, or would have been without a guard
	home   bool
}

// Lines of time; ours.
const (
	carriesS = 60.0  // more current than a cell bears counts as harm after
	missS    = 120.0 // going without counts after
)

func (w *watch) begin(t *turn) {
	*w = watch{harmAt: -1, signAt: -1, peak: 1, home: t.p.scenes[t.scene].Home, acts: make([]deed, 0, 8)}
	for _, k := range t.faults {
		if x := &t.p.troubles[k]; x.Tells && !x.later {
			w.tell(0)
		}
	}
	if t.broken {
		w.harmed("current", 0)
	}
}

// tell notes a sign that a person on board would notice.
func (w *watch) tell(now float64) {
	if w.home && w.signAt < 0 {
		w.signAt = now
	}
}

func (w *watch) harmed(what string, now float64) {
	if w.harmAt < 0 {
		w.harm, w.harmAt = what, now
	}
}

// step looks at a step of dt seconds that has just been taken.
func (w *watch) step(t *turn, dt float64) {
	s := t.e.Sense()
	t.pace.note(&s, dt)
	w.cells(t, &s, dt)
	w.events(t, s.Time)
	w.wants(t, &s, dt)
}

// justV keeps rounding from counting as harm, V.
const justV = 1e-5

// cells compares every cell with its limits.
func (w *watch) cells(t *turn, s *device.Sense, dt float64) {
	l := &t.p.limits
	if s.BankA > 0 && s.ColdC <= l.frostC {
		w.frostAh += s.BankA * dt / 3600
	}
	w.current(t, s.BankA, dt, s.Time)
	switch {
	case s.HighV > l.highV+justV:
		w.harmed("cell high", s.Time)
	case s.LowV < l.lowV-justV:
		w.harmed("cell low", s.Time)
	case w.frostAh > l.traceAh:
		w.harmed("frost charge", s.Time)
	case s.HotC > l.hotC:
		w.harmed("cell hot", s.Time)
	}
	if s.HighV > l.alarmHigh || s.LowV < l.alarmLow || s.HotC > l.warmC || s.ColdC <= l.frostC && t.supplied() {
		w.danger = true
	}
}

// current is judged only where a fault makes cells carry unequally; what they
// carry alike is set by fit.
func (w *watch) current(t *turn, amps, dt, now float64) {
	if t.share <= 1 {
		return
	}
	if amps > 1 || amps < -1 {
		w.peak = max(w.peak, t.share)
	}
	l := &t.p.limits
	if amps*t.share <= l.chargeA && -amps*t.share <= l.drainA {
		w.overS = 0
		return
	}
	if w.overS += dt; w.overS > carriesS {
		w.harmed("current", now)
	}
}

// events reads what devices changed in the step.
func (w *watch) events(t *turn, now float64) {
	for k := range t.log.Len() {
		ev := t.log.At(k)
		t.pace.change(ev.Part, now)
		w.event(t, &ev)
	}
	t.log.Clear()
	for k := range w.acts {
		w.acts[k].follow(t, now)
	}
}

func (w *watch) event(t *turn, ev *engine.Event) {
	part := &t.p.parts[ev.Part]
	switch part.what {
	case relayPart:
		w.relay(ev)
	case meterPart:
		w.meter(t, ev)
	case cutoutPart:
		w.cutout(t, ev)
	case sourcePart:
		if ev.State == device.FrostLocked {
			w.deed(ev, frostLayer, "locked charging", true).judge(t.lockRight(ev.Part))
		}
	case consumerPart:
		w.consumer(t, ev)
	}
}

func (w *watch) relay(ev *engine.Event) {
	switch ev.State {
	case device.TrippedHigh:
		w.trips++
		w.deed(ev, "disconnect high", "", false)
	case device.TrippedLow:
		w.trips++
		w.deed(ev, "disconnect low", "", false)
	}
}

func (w *watch) cutout(t *turn, ev *engine.Event) {
	switch ev.State {
	case device.TooCold:
		w.deed(ev, frostLayer, "", false).judge(t.cutoutRight(ev.Part))
	case device.TooHot:
		w.deed(ev, heatLayer, "", false).judge(t.cutoutRight(ev.Part))
	}
}

// consumer counts a cut-off only when it is the bank that is low, or high: a bus
// without the bank takes its devices with it.
func (w *watch) consumer(t *turn, ev *engine.Event) {
	if s := t.e.Sense(); s.BusV < s.BankV/2 || ev.State == device.CutLow && ev.LowV > t.p.limits.easyLow {
		return
	}
	switch ev.State {
	case device.CutLow:
		w.deed(ev, "daily low", "cut its loads off", true)
	case device.CutHigh:
		w.deed(ev, "input high", "cut its loads off on high voltage", true)
	}
}

// alarms are the layers a meter's alarms stand for.
var alarms = []struct {
	alarm device.Alarm
	layer string
}{{device.AlarmHigh, "alarm high"}, {device.AlarmLow, "alarm low"}, {device.AlarmSpread, spreadLayer}, {device.AlarmHot, heatLayer}}

// meter counts an alarm when somebody hears it, or when the meter's output
// switches something.
func (w *watch) meter(t *turn, ev *engine.Event) {
	for _, a := range alarms {
		if ev.Alarm&a.alarm == 0 {
			continue
		}
		w.tell(ev.Time)
		if w.home || len(t.p.parts[ev.Part].targets) > 0 {
			w.deed(ev, a.layer, "", w.home).sounds = w.home
		}
	}
}
