package choose

import (
	"slices"
	"strings"

	q "ampstead/quantity"
	"ampstead/rig"
)

// with is the rig with a candidate instead of its bank, nil for its own. Every
// setting is left open, so that each battery is judged with what fit recommends
// for it. r stays as it is.
func with(r *rig.Rig, c *rig.Candidate) (*rig.Rig, error) {
	out := open(r)
	if c == nil {
		return out, nil
	}
	out.Bank = bankOf(&r.Bank, c)
	if acid(c.Cell) {
		out.Protection.Meters, out.Heater = nil, nil
		out.Protection.Cutouts = slices.DeleteFunc(out.Protection.Cutouts, func(x rig.Cutout) bool {
			return x.Stops == "heater" || r.Heater != nil && x.Stops == r.Heater.Name
		})
		quiet(out)
	}
	for k := range out.Protection.Meters {
		out.Protection.Meters[k].Watches = c.Series * max(1, c.Strings)
	}
	return out, nil
}

// acid reports whether a library cell is lead-acid, by its name.
func acid(cell string) bool { return strings.HasPrefix(cell, "lead-acid") }

// bankOf is the candidate as a bank, in the old one's box where it goes in.
func bankOf(old *rig.Bank, c *rig.Candidate) rig.Bank {
	b := rig.Bank{Cell: c.Cell, Own: c.Own, Series: c.Series, CellsPerGroup: c.CellsPerGroup, Strings: c.Strings,
		CellCapacity: c.CellCapacity, Limits: c.Limits, Mass: c.Mass, Box: boxFor(old.Box, c), Cooling: old.Cooling}
	if s := c.State; s != nil && (s.Capacity != nil || s.Resistance != nil) {
		b.Measured = &rig.Measured{Capacity: s.Capacity, Resistance: s.Resistance}
	}
	return b
}

// boxFor is the box there is, or one like it around a candidate too large for it.
func boxFor(box *rig.Box, c *rig.Candidate) *rig.Box {
	if box == nil || goesIn(box, c) {
		return box
	}
	larger := *box
	larger.Length, larger.Width, larger.Height = c.Length, c.Width, c.Height
	return &larger
}

// goesIn reports whether a candidate goes into the box, turned any way but
// upright; one whose size is not known does.
func goesIn(box *rig.Box, c *rig.Candidate) bool {
	if c.Length == nil || c.Width == nil || c.Height == nil {
		return true
	}
	long, wide := max(*box.Length, *box.Width), min(*box.Length, *box.Width)
	return max(*c.Length, *c.Width) <= long && min(*c.Length, *c.Width) <= wide && *c.Height <= *box.Height
}

// open copies a rig with every setting open. A side of a cut-out that is off
// stays off: it is how the switch is built.
func open(r *rig.Rig) *rig.Rig {
	c := *r
	c.Charge = slices.Clone(r.Charge)
	for k := range c.Charge {
		c.Charge[k].Settings = rig.ChargeSettings{}
	}
	c.Converters, c.Inverters = slices.Clone(r.Converters), slices.Clone(r.Inverters)
	for k := range c.Converters {
		c.Converters[k].LowCut, c.Converters[k].Restart = rig.Setting[q.Voltage]{}, rig.Setting[q.Voltage]{}
	}
	for k := range c.Inverters {
		c.Inverters[k].LowCut, c.Inverters[k].Restart = rig.Setting[q.Voltage]{}, rig.Setting[q.Voltage]{}
	}
	c.Protection = openProtection(&r.Protection)
	if r.Heater != nil {
		h := *r.Heater
		h.On, h.Off = rig.Setting[q.Temperature]{}, rig.Setting[q.Temperature]{}
		c.Heater = &h
	}
	return &c
}

func openProtection(p *rig.Protection) rig.Protection {
	c := *p
	c.Relays, c.Meters, c.Cutouts = slices.Clone(p.Relays), slices.Clone(p.Meters), slices.Clone(p.Cutouts)
	for k, x := range c.Relays {
		c.Relays[k] = rig.Relay{Name: x.Name, Drives: x.Drives, Tolerance: x.Tolerance, Step: x.Step, Senses: x.Senses}
	}
	for k, x := range c.Meters {
		c.Meters[k] = rig.Meter{Name: x.Name, Watches: x.Watches, Tolerance: x.Tolerance, Step: x.Step, Drives: x.Drives}
	}
	for k := range c.Cutouts {
		x := &c.Cutouts[k]
		if x.Below.On() {
			x.Below = rig.Setting[q.Temperature]{}
		}
		if x.Above.On() {
			x.Above = rig.Setting[q.Temperature]{}
		}
	}
	return c
}

// quiet switches off what lead-acid does not bear: a relay that opens on high
// voltage would open on every charge compensated for the cold.
func quiet(r *rig.Rig) {
	for k := range r.Protection.Relays {
		x := &r.Protection.Relays[k]
		x.High = rig.Setting[q.Voltage]{Given: true, Off: true}
		x.HighReset, x.HighDelay = rig.Setting[q.Voltage]{Given: true, Off: true}, rig.Setting[q.Duration]{Given: true, Off: true}
	}
}
