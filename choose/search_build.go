package choose

import (
	"math"
	"slices"

	q "ampstead/quantity"
	"ampstead/rig"
)

// build makes the rig of a design, every setting open.
func (s *space) build(g genes) *rig.Rig {
	b := &s.base[g[whichBattery]]
	r := copyRig(b.rig)
	setModules(r, s.modules[g[howManyModules]])
	setPanels(r, s.panels[g[howMuchPanel]])
	if tilt := s.tilts[g[howTilted]]; tilt >= 0 {
		for k := range r.Route {
			r.Route[k].Tilt = quantityOf[q.Angle](tilt)
		}
	}
	setHeater(r, s.heaters[g[howMuchHeater]])
	if thick := s.thick[g[howThick]]; thick >= 0 && r.Bank.Box != nil {
		r.Bank.Box.Insulation = quantityOf[q.Length](thick)
	}
	if w := b.windows[g[whichWindow]]; w != nil {
		r.Bank.Daily = w
	}
	return r
}

// setModules puts another number of equal strings in parallel: capacity and mass
// go with it, resistance against it; more than now need a longer box.
func setModules(r *rig.Rig, n int) {
	b := &r.Bank
	was := max(1, b.Strings)
	if n == was {
		return
	}
	grow := float64(n) / float64(was)
	b.Strings = n
	b.Mass = times(b.Mass, grow)
	if m := b.Measured; m != nil {
		m.Capacity, m.Resistance = times(m.Capacity, grow), times(m.Resistance, 1/grow)
		for k := range m.Groups {
			x := &m.Groups[k]
			x.Capacity, x.Resistance, x.Behind = times(x.Capacity, grow), times(x.Resistance, 1/grow), times(x.Behind, grow)
		}
	}
	if b.Box != nil && n > was {
		b.Box.Length = times(b.Box.Length, grow)
	}
	for k := range r.Protection.Meters {
		w := &r.Protection.Meters[k].Watches
		*w = max(1, int(math.Round(float64(*w)*grow)))
	}
}

// panelStep is what a panel's power is rounded to, W.
const panelStep = 5

// setPanels makes every panel larger or smaller; its currents go with it, its
// voltages stay.
func setPanels(r *rig.Rig, share float64) {
	if share == 1 {
		return
	}
	for k := range r.Charge {
		for j := range r.Charge[k].Panels {
			p := &r.Charge[k].Panels[j]
			watts := max(panelStep, panelStep*math.Round(float64(*p.Power)*share/panelStep))
			p.ShortCurrent = times(p.ShortCurrent, watts/float64(*p.Power))
			p.Power = quantityOf[q.Power](watts)
		}
	}
}

// setHeater sets the pad's power, 0 for none. A pad's area goes with its power.
func setHeater(r *rig.Rig, watts float64) {
	h := r.Heater
	switch {
	case watts == 0 && h != nil:
		r.Heater = nil
		dropHeater(r, h.Name)
	case watts > 0 && h == nil:
		r.Heater = &rig.Heater{Name: "heater pad", Power: quantityOf[q.Power](watts), Supply: "bank"}
	case watts > 0 && watts != float64(*h.Power):
		h.Area = times(h.Area, watts/float64(*h.Power))
		h.Power = quantityOf[q.Power](watts)
	}
}

// dropHeater takes out what served a heater that is gone: its switch, its cable
// and its fuse.
func dropHeater(r *rig.Rig, name string) {
	gone := map[string]bool{name: true, "heater": true}
	r.Protection.Cutouts = slices.DeleteFunc(r.Protection.Cutouts, func(c rig.Cutout) bool { return gone[c.Stops] })
	r.Cables = slices.DeleteFunc(r.Cables, func(c rig.Cable) bool {
		goes := gone[c.From] || gone[c.To]
		gone[c.Name] = gone[c.Name] || goes
		return goes
	})
	r.Protection.Fuses = slices.DeleteFunc(r.Protection.Fuses, func(f rig.Fuse) bool { return gone[f.Guards] })
}

// copyRig copies a rig as deep as a design changes it.
func copyRig(r *rig.Rig) *rig.Rig {
	c := *r
	c.Route, c.Charge, c.Cables = slices.Clone(r.Route), slices.Clone(r.Charge), slices.Clone(r.Cables)
	for k := range c.Charge {
		c.Charge[k].Panels = slices.Clone(r.Charge[k].Panels)
	}
	c.Converters, c.Inverters = slices.Clone(r.Converters), slices.Clone(r.Inverters)
	p := &c.Protection
	p.Relays, p.Meters, p.Cutouts, p.Fuses = slices.Clone(p.Relays), slices.Clone(p.Meters), slices.Clone(p.Cutouts), slices.Clone(p.Fuses)
	c.Bank.Box, c.Bank.Measured, c.Heater = cloned(r.Bank.Box), cloned(r.Bank.Measured), cloned(r.Heater)
	if c.Bank.Measured != nil {
		c.Bank.Measured.Groups = slices.Clone(c.Bank.Measured.Groups)
	}
	return &c
}

func cloned[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

func times[Q ~float64](v *Q, by float64) *Q {
	if v == nil {
		return nil
	}
	return quantityOf[Q](rounded(float64(*v) * by))
}

// rounded keeps four significant digits, as a person would write.
func rounded(v float64) float64 {
	if v == 0 {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3)
	return math.Round(v/unit) * unit
}

func quantityOf[Q ~float64](v float64) *Q {
	x := Q(v)
	return &x
}

// daily is a wish for a window, V per cell, to the millivolt outwards, so that what
// a device can be set to comes back as it was; fit keeps it inside the layers.
func daily(high, low float64) *rig.Daily {
	return &rig.Daily{High: quantityOf[q.Voltage](math.Ceil(high*1000-1e-6) / 1000), Low: quantityOf[q.Voltage](math.Floor(low*1000+1e-6) / 1000)}
}
