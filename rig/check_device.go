package rig

import (
	"fmt"

	q "ampstead/quantity"
)

// sourceParts reports keys of another kind of source.
func (c *checker) sourceParts() {
	c.file.visit(func(at spot) {
		if at.field.only == "" {
			return
		}
		is := c.written(outer(at.path) + ".kind")
		if contains(c.kinds(), is) && is != at.field.only {
			c.add(at.path, fmt.Sprintf("%s belongs to kind %s, but this is %s", at.field.key, at.field.only, is),
				"no such key here", "")
		}
	})
}

// kinds are the known kinds of charge source; another word is reported already.
func (c *checker) kinds() []string { return rigShape.field("charge").inner.field("kind").oneof }

func (c *checker) sourceRange() {
	for i, s := range c.rig.Charge {
		at := c.item("charge", i)
		if s.Lowest != nil && s.Highest != nil {
			c.above(at, "highest", "lowest", *s.Highest > *s.Lowest)
		}
		c.settable(at, s, "absorption", s.Settings.Absorption)
		c.settable(at, s, "float", s.Settings.Float)
		c.settable(at, s, "equalise", s.Settings.Equalise)
	}
}

func (c *checker) settable(at string, s Source, key string, v Setting[q.Voltage]) {
	path := at + ".settings." + key
	switch {
	case !v.On():
	case s.Lowest != nil && v.Value < *s.Lowest:
		c.add(path, fmt.Sprintf("%s is below the lowest it can be set to, %s", c.written(path), c.written(at+".lowest")),
			"a voltage within lowest and highest", "")
	case s.Highest != nil && v.Value > *s.Highest:
		c.add(path, fmt.Sprintf("%s is above the highest it can be set to, %s", c.written(path), c.written(at+".highest")),
			"a voltage within lowest and highest", "")
	}
}

func (c *checker) panels() {
	for i, s := range c.rig.Charge {
		for j, p := range s.Panels {
			if p.PeakVoltage != nil && p.OpenVoltage != nil {
				c.above(c.item(c.item("charge", i)+".panels", j), "open_voltage", "peak_voltage", *p.OpenVoltage > *p.PeakVoltage)
			}
		}
	}
}

func (c *checker) inputs() {
	each := func(list string, i int, low, high *q.Voltage) {
		if low != nil && high != nil {
			c.above(c.item(list, i), "input_high", "input_low", *high > *low)
		}
	}
	for i, v := range c.rig.Converters {
		each("converters", i, v.InputLow, v.InputHigh)
	}
	for i, v := range c.rig.Inverters {
		each("inverters", i, v.InputLow, v.InputHigh)
	}
}

func (c *checker) restarts() {
	for i, v := range c.rig.Converters {
		ordered(c, c.item("converters", i), "restart", "low_cut", v.Restart, v.LowCut)
	}
	for i, v := range c.rig.Inverters {
		ordered(c, c.item("inverters", i), "restart", "low_cut", v.Restart, v.LowCut)
	}
}

func (c *checker) relays() {
	for i, r := range c.rig.Protection.Relays {
		at := c.item("protection.relays", i)
		ordered(c, at, "high", "low", r.High, r.Low)
		ordered(c, at, "high", "high_reset", r.High, r.HighReset)
		ordered(c, at, "low_reset", "low", r.LowReset, r.Low)
	}
}

func (c *checker) alarms() {
	for i, m := range c.rig.Protection.Meters {
		ordered(c, c.item("protection.meters", i), "alarm_high", "alarm_low", m.AlarmHigh, m.AlarmLow)
	}
	for i, cut := range c.rig.Protection.Cutouts {
		ordered(c, c.item("protection.cutouts", i), "above", "below", cut.Above, cut.Below)
	}
}

func (c *checker) heater() {
	if h := c.rig.Heater; h != nil {
		ordered(c, "heater", "off", "on", h.Off, h.On)
	}
}

// ordered reports a pair of settings, both on, whose upper is not above the lower.
func ordered[Q q.Quantity](c *checker, at, upperKey, lowerKey string, upper, lower Setting[Q]) {
	if upper.On() && lower.On() {
		c.above(at, upperKey, lowerKey, upper.Value > lower.Value)
	}
}

func (c *checker) habits() {
	for i, l := range c.rig.Loads {
		if l.Hours != nil && l.Duty != nil {
			c.add(join(c.item("loads", i), "duty"), "duty stands instead of hours, but both are given",
				"one of them", "")
		}
	}
}
