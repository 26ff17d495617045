package drill

import (
	"ampstead/device"
	"ampstead/engine"
)

// deed is a layer that acts, at the time something came of it.
type deed struct {
	part   int
	layer  string
	at     float64 // -1 until something came of it
	did    string
	obeyed uint64 // set of the guard's targets
	sounds bool
	wrong  bool // it acted on a temperature that is not there
}

// deed notes that a layer of a device acts, and returns its first time. took says
// that something came of it at once.
func (w *watch) deed(ev *engine.Event, layer, did string, took bool) *deed {
	for k := range w.acts {
		if d := &w.acts[k]; d.part == ev.Part && d.layer == layer {
			return d
		}
	}
	d := deed{part: ev.Part, layer: layer, at: -1, did: did}
	if took {
		d.at = ev.Time
	}
	w.acts = append(w.acts, d)
	return &w.acts[len(w.acts)-1]
}

// judge keeps whether a guard acts on what is there.
func (d *deed) judge(right bool) { d.wrong = !right }

// rightK is how far from its threshold a temperature may be for a switch to have
// acted on it, K: more than the accuracy of any.
const rightK = 5.0

// cutoutRight compares a cut-out that acts with the bank's own temperature.
func (t *turn) cutoutRight(part int) bool {
	s := t.e.Sense()
	for k := range t.a.Guards {
		if d, is := t.a.Guards[k].Device.(*device.Cutout); is && t.a.Guards[k].Part == part {
			return d.Below && s.ColdC < d.BelowC+rightK || d.Above && s.HotC > d.AboveC-rightK
		}
	}
	return true
}

// lockRight does the same for a charger that locks in frost.
func (t *turn) lockRight(part int) bool {
	s := t.e.Sense()
	for k := range t.a.Chargers {
		if c := &t.a.Chargers[k]; c.Part == part {
			return s.ColdC < c.Device.FrostC+rightK
		}
	}
	return true
}

// follow notes what has obeyed a guard, and when the first did.
func (d *deed) follow(t *turn, now float64) {
	for k, to := range t.p.parts[d.part].targets {
		if s := t.e.State(to); s != device.Open && s != device.Stopped {
			continue
		}
		d.obeyed |= 1 << k
		if d.at < 0 {
			d.at = now
		}
	}
}
