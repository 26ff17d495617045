package drill

import (
	"ampstead/assembly"
	"ampstead/device"
	"ampstead/rig"
)

// guards makes the faults of relays, meters and cut-outs.
func (f *faulty) guards() {
	for _, g := range f.a.Guards {
		switch d := g.Device.(type) {
		case *device.Relay:
			f.relay(g, d)
		case *device.Meter:
			f.meter(g, d)
		case *device.Cutout:
			f.cutout(g, d)
		}
	}
}

func (f *faulty) relay(g assembly.Guard, d *device.Relay) {
	if len(g.Stops) == 0 {
		return
	}
	f.wedge(g.Name, "contact welded", "welded contact", false, "it judges rightly, but its contact no longer moves: nothing opens")
	f.wedge(g.Name, "coil or contact open", "open contact", true, "its contact stays open: what it switches is off for good")
	f.add(g.Name, "dead", "dead guard", false, func(t *turn) {
		t.wrap(g.Name, func(device.Device) device.Device { return fixed{State: device.Quiet} })
	}, "it sees nothing and never acts, and its contact stays as it is")
	drift := driftFactor * f.accuracy(g.Name)
	f.add(g.Name, "thresholds drifted up", "drifted threshold", false, func(t *turn) { t.relay(g.Name).Gain += drift },
		"every threshold acts %s higher than it is set, %d times its accuracy", percent(drift), driftFactor)
	f.add(g.Name, "thresholds drifted down", "drifted threshold", false, func(t *turn) { t.relay(g.Name).Gain -= drift },
		"every threshold acts %s lower than it is set, %d times its accuracy", percent(drift), driftFactor)
	if d.HighDelayS > 0 || d.LowDelayS > 0 {
		f.add(g.Name, "delay lost", "delay lost", false, func(t *turn) {
			r := t.relay(g.Name)
			r.HighDelayS, r.LowDelayS = 0, 0
		}, "it acts at once instead of after its delay")
	}
}

// wedge adds a contact that stays where it is, open or closed.
func (f *faulty) wedge(part, what, kind string, open bool, how string) {
	f.add(part, what, kind, open, func(t *turn) {
		t.wrap(part, func(d device.Device) device.Device {
			if open {
				return fixed{State: device.Quiet, Stop: true}
			}
			return wedged{Device: d}
		})
	}, "%s", how)
}

// relay is a relay's settings in a run.
func (t *turn) relay(name string) *device.Relay {
	for k := range t.a.Relays {
		if t.a.Relays[k].Name == name {
			return t.a.Relays[k].Device
		}
	}
	return &device.Relay{}
}

func (f *faulty) accuracy(relay string) float64 {
	for k := range f.rig.Protection.Relays {
		if r := &f.rig.Protection.Relays[k]; r.Name == relay && r.Tolerance != nil {
			return float64(*r.Tolerance)
		}
	}
	return anyAccuracy
}

func (f *faulty) meter(g assembly.Guard, d *device.Meter) {
	f.add(g.Name, "dead", "dead meter", false, func(t *turn) {
		t.wrap(g.Name, func(device.Device) device.Device { return fixed{State: device.Quiet} })
	}, "it shows nothing and never sounds")
	high, low := f.weakGroups()
	f.blind(g.Name, high)
	if low != high {
		f.blind(g.Name, low)
	}
	if d.HotC > 0 {
		f.falseWarmth(g.Name, stuckC, "sensor stuck", "its thermometer reads %s for ever")
	}
}

func (f *faulty) blind(part string, group int) {
	if f.rig.Bank.Series < 2 {
		return
	}
	f.add(part, "wire of "+groupName(group)+" open", "open tap wire", false, func(t *turn) {
		t.wrap(part, func(d device.Device) device.Device { return &oneBlind{Device: d, group: group} })
	}, "it does not see that group and takes the mean of the others for it")
}

// cutout makes the faults of a temperature switch. A reading at which it can
// never act stands for all of them.
func (f *faulty) cutout(g assembly.Guard, d *device.Cutout) {
	if len(g.Stops) == 0 || !d.Below && !d.Above {
		return
	}
	f.falseWarmth(g.Name, stuckC, "sensor stuck", "its thermometer reads %s for ever, so that it never acts")
	if d.Below {
		f.falseWarmth(g.Name, openC, "sensor open", "its thermometer reads extreme cold, %s, so that it acts for good")
	}
	if d.Above {
		f.falseWarmth(g.Name, shortC, "sensor short", "its thermometer reads extreme heat, %s, so that it acts for good")
	}
}

func (f *faulty) contactors() {
	for k := range f.rig.Protection.Contactors {
		f.contactor(&f.rig.Protection.Contactors[k])
	}
}

func (f *faulty) contactor(c *rig.Contactor) {
	f.add(c.Name, "contacts welded", "welded contact", false, func(t *turn) {
		t.wrap(c.Name, func(d device.Device) device.Device { return welded{d} })
	}, "it stays closed whatever its coil does")
	f.add(c.Name, "coil open", "open contact", c.Opens != "charge", func(t *turn) {
		t.wrap(c.Name, func(device.Device) device.Device { return fixed{State: device.Open, Stop: true} })
	}, "it falls open and stays open")
}
