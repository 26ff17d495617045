package assembly

import (
	"slices"

	"ampstead/device"
	"ampstead/engine"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// How guards act where the file does not say; ours.
const (
	openS       = 0.05 // a contactor's time to open
	alarmBackV  = 0.020
	alarmS      = 5.0 // an alarm lasts so long before a meter's output acts
	cutoutBackK = 2.0
)

func (b *builder) guard(g Guard, d device.Device) {
	if len(g.Stops) == 0 && b.o.Silent {
		return
	}
	g.Device = d
	b.out.Guards = append(b.out.Guards, g)
	b.add(engine.Part{Name: g.Name, Role: engine.Guard, Device: d, Stops: g.Stops})
}

func (b *builder) contactors() {
	branch := map[string]engine.Branch{"bank": engine.BankBranch, "charge": engine.ChargeBranch, "loads": engine.LoadBranch}
	for _, c := range b.rig.Protection.Contactors {
		d := &device.Contactor{OpenS: openS, CoilW: or(c.Coil, 0)}
		b.add(engine.Part{Name: c.Name, Role: engine.Switch, Device: d, Opens: branch[c.Opens]})
	}
}

// stoppable is what a named device stops: contactors always, a source only when
// it has an input for it.
func (b *builder) stoppable(name string) []string {
	var list []string
	for _, c := range b.rig.Protection.Contactors {
		if c.Name == name {
			list = append(list, name)
		}
	}
	for _, s := range b.rig.Charge {
		if (s.Name == name || name == "charge") && s.StopInput {
			list = append(list, s.Name)
		}
	}
	for _, v := range b.rig.Converters {
		if v.Name == name {
			list = append(list, name)
		}
	}
	for _, v := range b.rig.Inverters {
		if v.Name == name {
			list = append(list, name)
		}
	}
	if h := b.rig.Heater; h != nil && (name == "heater" || name == h.Name) {
		list = append(list, h.Name)
	}
	return list
}

func (b *builder) relays() {
	for k := range b.rig.Protection.Relays {
		r := &b.rig.Protection.Relays[k]
		path := "protection.relays." + r.Name + "."
		d := &device.Relay{AtBus: r.Senses == "bus"}
		d.HighV = value(b, r.High, path+"high")
		d.LowV = value(b, r.Low, path+"low")
		if d.HighV > 0 {
			d.HighResetV = value(b, r.HighReset, path+"high_reset")
			d.HighDelayS = value(b, r.HighDelay, path+"high_delay")
		}
		if d.LowV > 0 {
			d.LowResetV = value(b, r.LowReset, path+"low_reset")
			d.LowDelayS = value(b, r.LowDelay, path+"low_delay")
		}
		stops := b.stoppable(r.Drives)
		if len(stops) > 0 {
			b.out.Relays = append(b.out.Relays, Relay{Name: r.Name, Device: d, CutsBank: b.opens("bank", stops)})
		}
		b.guard(Guard{Name: r.Name, Stops: stops}, d)
	}
}

func (b *builder) meters() {
	for k := range b.rig.Protection.Meters {
		m := &b.rig.Protection.Meters[k]
		path := "protection.meters." + m.Name + "."
		d := &device.Meter{BackV: alarmBackV, DelayS: alarmS, Probe: device.AtHottest,
			Acts: device.AlarmHigh | device.AlarmLow | device.AlarmHot}
		d.HighV = value(b, m.AlarmHigh, path+"alarm_high")
		d.LowV = value(b, m.AlarmLow, path+"alarm_low")
		d.SpreadV = value(b, m.Spread, path+"spread")
		d.HotC = value(b, m.Hot, path+"hot")
		stops := b.stoppable(m.Drives)
		for k := range b.rig.Charge {
			if b.rig.Charge[k].Name == m.Drives {
				d.Acts &^= device.AlarmLow // an empty group is no reason to stop charging
			}
		}
		b.guard(Guard{Name: m.Name, Stops: stops}, d)
	}
}

func (b *builder) cutouts() {
	for k := range b.rig.Protection.Cutouts {
		c := &b.rig.Protection.Cutouts[k]
		path := "protection.cutouts." + c.Name + "."
		d := &device.Cutout{BackK: cutoutBackK, Probe: device.AtHottest}
		d.BelowC, d.Below = setting(b, c.Below, path+"below")
		d.AboveC, d.Above = setting(b, c.Above, path+"above")
		if d.Below {
			d.Probe = device.AtColdest
		}
		b.guard(Guard{Name: c.Name, Frost: d.Below && !d.Above, Stops: b.stoppable(c.Stops)}, d)
	}
}

// HandName is the part that stands for a person who switches sources off in frost.
const HandName = "switched off by hand"

// byHand finds the sources nothing stops in frost, and lets a person see to them
// when that is wanted: below the lock fit recommends.
func (b *builder) byHand() {
	if b.fit.Kind.Family == cell.LeadAcid {
		return
	}
	for k := range b.rig.Charge {
		if s := &b.rig.Charge[k]; !b.locked(s) {
			b.out.Unlocked = append(b.out.Unlocked, s.Name)
		}
	}
	if !b.o.ByHand || b.out.Unlocked == nil {
		return
	}
	d := &device.Cutout{Below: true, BelowC: b.frostLock(), BackK: cutoutBackK, Probe: device.AtColdest}
	b.guard(Guard{Name: HandName, Frost: true, Stops: b.out.Unlocked}, d)
}

// frostLock is the lock fit recommends, °C.
func (b *builder) frostLock() float64 {
	for _, m := range b.fit.Warmth {
		if m.Name == "frost lock" {
			return m.TempC
		}
	}
	return b.fit.Kind.ChargeMinC.Value + 5
}

// locked reports whether a source stops in frost: by its own thermometer on the
// bank, by a cut-out on its stop input, or by one that opens a contactor. A lock
// set below the cell's limit is none.
func (b *builder) locked(s *rig.Source) bool {
	least := b.fit.Kind.ChargeMinC.Value
	own, on := setting(&builder{rig: b.rig, fit: b.fit, out: &Assembly{}}, s.Settings.FrostLock, "charge."+s.Name+".settings.frost_lock")
	if on && own >= least && s.Thermometer == "bank" {
		return true
	}
	for _, g := range b.out.Guards {
		if b.coldGuard(g.Name, least) && (slices.Contains(g.Stops, s.Name) || b.opens("bank", g.Stops) || b.opens("charge", g.Stops)) {
			return true
		}
	}
	return false
}

// coldGuard reports whether the part of that name is a cut-out that acts on cold
// no later than the cell needs.
func (b *builder) coldGuard(name string, least float64) bool {
	for k := range b.parts {
		if d, ok := b.parts[k].Device.(*device.Cutout); ok && b.parts[k].Name == name {
			return d.Below && d.BelowC >= least
		}
	}
	return false
}

// opens reports whether one of the names is a contactor that cuts off a branch.
func (b *builder) opens(branch string, names []string) bool {
	for _, c := range b.rig.Protection.Contactors {
		if slices.Contains(names, c.Name) && c.Opens == branch {
			return true
		}
	}
	return false
}
