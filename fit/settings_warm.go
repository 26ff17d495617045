package fit

import (
	"fmt"

	"ampstead/physics/setpoint"
	q "ampstead/quantity"
	"ampstead/rig"
)

// cutoutSheet is the sheet of a temperature cut-out. One that states only one of
// its two sides is taken for a switch of that side.
func (s *study) cutoutSheet(c *rig.Cutout) []Setting {
	p := &page{kind: "temperature cut-out", device: c.Name, path: "protection.cutouts." + c.Name}
	tol := or(c.Tolerance, assumedWarmth)
	charge := c.Stops != "heater" && (s.rig.Heater == nil || c.Stops != s.rig.Heater.Name)
	switch {
	case !charge || c.Above.On() && !c.Below.On():
		p.line("below", Off, todayOf(c.Below), q.Celsius, "it acts on heat only")
	case s.acid():
		p.line("below", Off, todayOf(c.Below), q.Celsius, "lead-acid may be charged in frost")
	default:
		p.line("below", kept(c.Below, s.warm.least, setpoint.LockMost, s.warm.least), todayOf(c.Below), q.Celsius, fmt.Sprintf(
			"%s off, it still acts before %s, where charging plates lithium", s.kelvins(tol), s.degrees(s.cell.ChargeMinC.Value)), s.warm.hows...)
	}
	switch {
	case !charge:
		p.line("above", setpoint.PadLimit, todayOf(c.Above), q.Celsius, "the pad's own surface, should its thermostat stick", s.warm.hot...)
	case c.Below.On() && !c.Above.On():
		p.line("above", Off, todayOf(c.Above), q.Celsius, "it acts on frost only")
	default:
		p.line("above", kept(c.Above, s.warm.hotStop-5, s.warm.hotStop, s.warm.hotStop), todayOf(c.Above), q.Celsius, fmt.Sprintf(
			"%s off, it still acts before %s, the limit for charging", s.kelvins(tol), s.degrees(s.cell.ChargeMaxC.Value)), s.warm.hot...)
	}
	return p.lines
}

// heaterSheet is the sheet of the heater's thermostat.
func (s *study) heaterSheet(h *rig.Heater) []Setting {
	p := &page{kind: "heater", device: h.Name, path: "heater"}
	if s.acid() {
		p.line("on", Off, todayOf(h.On), q.Celsius, "lead-acid needs no heater to be charged")
		p.line("off", Off, todayOf(h.Off), q.Celsius, "lead-acid needs no heater to be charged")
		return p.lines
	}
	p.line("on", s.warm.on, todayOf(h.On), q.Celsius, fmt.Sprintf(
		"above the frost lock at %s with both accuracies against you; lower, and the bank would be kept just too cold to charge", s.degrees(s.warm.lock)), s.warm.heat...)
	p.line("off", s.warm.off, todayOf(h.Off), q.Celsius, "a step above, so that it does not chatter", s.warm.heat...)
	return p.lines
}
