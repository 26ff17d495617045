package drill

import (
	"ampstead/circuit"
	"ampstead/device"
	"ampstead/rig"
)

// consumer makes the faults of a converter or inverter.
func (f *faulty) consumer(name string, of func(*turn) *device.Converter) {
	d := of(&turn{a: f.a})
	if d.LowCutV > 0 {
		f.add(name, "low cut-off defeated", "cut-off defeated", false, func(t *turn) { of(t).LowCutV = 0 },
			"its low cut-off does nothing; its hardware still stops below %.4g V", d.InputLowV)
	}
	if f.cutsOff("bank", "loads") && !f.bankSide(name) {
		f.add(name, "fed from before the disconnect", "bypasses the disconnect", false, func(t *turn) {
			if err := t.e.Bypass(name); err != nil {
				t.err = err
			}
		}, "it has been wired to the bank's own terminals, so that no contactor parts it from the bank; its own cut-off still works")
	}
	f.shorted(name, of)
}

// directLoads lets loads that hang on the bank itself bypass the disconnect.
func (f *faulty) directLoads() {
	for _, x := range f.a.Direct {
		if x.BankSide || !f.cutsOff("bank", "loads") {
			continue
		}
		f.add(x.Name, "fed from before the disconnect", "bypasses the disconnect", false, func(t *turn) {
			if err := t.e.Bypass(x.Name); err != nil {
				t.err = err
			}
		}, "they have been wired to the bank's own terminals, so that no contactor parts them from the bank")
	}
}

// cutsOff reports whether a contactor opens one of the branches.
func (f *faulty) cutsOff(branches ...string) bool {
	for _, c := range f.rig.Protection.Contactors {
		for _, b := range branches {
			if c.Opens == b {
				return true
			}
		}
	}
	return false
}

// bankSide reports whether every load on a device bypasses the disconnect already.
func (f *faulty) bankSide(name string) bool {
	any := false
	for k := range f.rig.Loads {
		if l := &f.rig.Loads[k]; l.On == name {
			if !l.BypassesRelay {
				return false
			}
			any = true
		}
	}
	return any
}

// shorted is a short at the input of a converter or inverter. Which fuse clears
// it is looked up, not stepped: it takes milliseconds. A short that none clears
// is harm by current at once.
func (f *faulty) shorted(name string, of func(*turn) *device.Converter) {
	add := func(strike func(*turn), how string, args ...any) {
		f.add(name, "input shorted", "short", true, strike, how, args...)
	}
	if fuse := f.clears(name); fuse != nil {
		add(func(t *turn) { t.dead(name, of) }, "its input is short-circuited; %s clears it and it stays off", fuse.Name)
		return
	}
	if fuse := f.clears("bank"); fuse != nil {
		add(func(t *turn) { t.e.OpenMain() }, "its input is short-circuited; it has no fuse that can interrupt the current, so %s clears it and the bank is off the bus", fuse.Name)
		return
	}
	add(func(t *turn) { t.broken = true }, "its input is short-circuited, and no fuse of the rig is rated to interrupt the %.3g kA that flow; the current is not stepped", f.shortA()/1000)
}

// dead takes a converter off for good.
func (t *turn) dead(name string, of func(*turn) *device.Converter) {
	of(t).DeliveredW = 0
	t.wrap(name, func(device.Device) device.Device { return fixed{State: device.Off} })
}

// clears is the fuse before a part that is rated to interrupt a short, or nil: its
// own, or that of a cable that ends at it.
func (f *faulty) clears(part string) *rig.Fuse {
	fuses := circuit.Fuses(f.rig, part)
	for k := range f.rig.Cables {
		if c := &f.rig.Cables[k]; c.To == part || c.From == part && part != "bank" {
			fuses = append(fuses, circuit.Fuses(f.rig, c.Name)...)
		}
	}
	for _, fuse := range fuses {
		if fuse.Interrupt != nil && float64(*fuse.Interrupt) >= f.shortA() {
			return fuse
		}
	}
	return nil
}

// shortA is the current the bank gives into a short, A; infinite when it cannot
// be reckoned.
func (f *faulty) shortA() float64 {
	s, err := circuit.ShortOf(&f.rig.Bank, f.fit.Kind, f.fit.Window.BankHighV, f.fit.Cell.RatedAh, f.fit.Cell.Ohm)
	if err != nil {
		return unboundedW
	}
	return s.BankA()
}

// heater makes the faults of the pad. Its thermostat's sensor open or short is
// one of the two.
func (f *faulty) heater() {
	h := f.rig.Heater
	if h == nil {
		return
	}
	f.add(h.Name, "stuck on", "stuck heater", false, func(t *turn) {
		t.wrap(h.Name, func(device.Device) device.Device { return stuckPad{t.a.Pad} })
	}, "its thermostat's contact is welded, or its sensor reads cold for ever; a switch in its lead still opens it")
	f.add(h.Name, "stuck off", "stuck heater", false, func(t *turn) {
		t.wrap(h.Name, func(device.Device) device.Device { return fixed{State: device.Off} })
	}, "it never heats: its lead is open, or its sensor reads warm for ever")
}
