package wire

import (
	"ampstead/circuit"
	"ampstead/rig"
)

// switches works out what each contactor carries and may be told to interrupt.
func (s *study) switches() {
	for k := range s.rig.Protection.Contactors {
		c := &s.rig.Protection.Contactors[k]
		x := Contactor{Name: c.Name, Path: "protection.contactors." + c.Name, ContinuousA: or(c.Continuous, 0), BreakA: or(c.Break, 0),
			Polarised: c.Polarised, CoilW: or(c.Coil, 0), CoilWhDay: 24 * or(c.Coil, 0)}
		if main := s.mainRun(); main != nil {
			s.duty(&x, c, main)
		}
		s.res.Contactors = append(s.res.Contactors, x)
	}
}

// duty is the share of the bank's current that a contactor sees.
func (s *study) duty(x *Contactor, c *rig.Contactor, main *run) {
	if c.Opens != "loads" {
		x.Charge = main.gives
	}
	if c.Opens != "charge" {
		x.Discharge = main.draws
		x.SurgeA = main.draws + main.surge
	}
	x.CurrentA = max(x.Charge, x.Discharge)
	x.SurgeA = max(x.SurgeA, x.CurrentA)
	x.BreakNeedA = x.SurgeA
	if c.Opens != circuit.AtBank {
		return
	}
	x.Circuit, main.SwitchName = main.Name, c.Name
	if main.guard != nil {
		x.BreakNeedA = max(x.BreakNeedA, main.guard.RatingA)
	}
}
