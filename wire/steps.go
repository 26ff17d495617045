package wire

import (
	"fmt"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/panel"
	"ampstead/physics/protect"
)

const (
	deadBus        = 2.0    // V left on a bus that nothing feeds
	contactOhm     = 0.0003 // of a closed contactor, 60 mV at 200 A on a data sheet
	equalising     = 0.1    // 1/h, current between two modules as they are joined
	jointAllowance = 0.010  // V for lugs and joints of a run at its current
	leadOhm        = 0.5    // what an ordinary meter shows on a good lead
	padSpread      = 0.10   // of a pad's resistance
	outputSpread   = 0.03   // of a converter's output
)

// step adds one measurement.
func (s *study) step(x Step) { s.res.Steps = append(s.res.Steps, x) }

// steps lists what to measure before each point is closed, in the order of
// closing.
func (s *study) steps() {
	s.stepModules()
	s.stepBank()
	s.stepBranches()
	s.stepContactor()
	s.stepRoof()
	s.stepDevices()
	s.stepGuards()
	s.stepRuns()
	s.stepFirstCharge()
}

func (s *study) stepModules() {
	w := s.fit.Window
	s.step(Step{Before: "the modules are joined", Where: "the two ends of every group", What: "voltage of each group, at rest for an hour",
		Low: w.CellLowV, High: w.CellHighV, Unit: "V", Why: "a group outside has been harmed or is about to be"})
	n := s.short.Strings
	if n < 2 {
		return
	}
	info := s.fit.Cell
	gap := equalising * info.Capacity / float64(n) * 2 * info.Ohm * float64(n)
	s.step(Step{Before: "the modules are joined", Where: "plus of one module to plus of the next, minus joined", What: "difference of voltage",
		Low: -gap, High: gap, Unit: "V", Why: fmt.Sprintf("it drives a current between them: a tenth of a module's capacity an hour, %s, at this difference", s.amps(equalising*info.Capacity/float64(n)))})
}

func (s *study) stepBank() {
	s.step(Step{Before: "the main fuse goes in", Where: "plus to minus of the bank", What: "voltage, plus on plus",
		Low: s.res.LowV, High: s.res.TopV, Unit: "V", Why: "a wrong count of groups or a reversed module shows here"})
	s.step(Step{Before: "the main fuse goes in", Where: "plus to minus of the bus", What: "voltage, with the contactor open and every source off",
		Low: 0, High: deadBus, Unit: "V", Why: "anything here feeds the bus from behind: find it first"})
}

// stepBranches follows each branch with the bus still dead, before its fuse goes in.
func (s *study) stepBranches() {
	for _, r := range s.runs {
		if r.parent == nil || r.side > 0 || r.FuseA == 0 || r.CurrentA == 0 {
			continue
		}
		before := "the fuse of " + r.Name + " goes in"
		s.step(Step{Before: before, Where: "outer side of the empty fuse holder to the plus terminal of " + r.To, What: "resistance, bus dead",
			Low: 0, High: leadOhm, Unit: "Ω", Why: "more means the wrong cable, or one reversed at an end"})
		least := s.res.LowV / r.CurrentA
		s.step(Step{Before: before, Where: "outer side of the empty fuse holder to the minus bar, " + r.To + " switched off", What: "resistance, rising as capacitors fill",
			Low: least, High: least, AtLeast: true, Unit: "Ω", Why: "less than at full power is a short or a reversed cable"})
	}
}

func (s *study) stepContactor() {
	p := s.res.PreCharge
	if p == nil {
		return
	}
	s.step(Step{Before: p.Contactor + " closes", Where: "across its open contacts", What: fmt.Sprintf("voltage after %.2g s of pre-charge through %.3g Ω, inverter switched off", p.TimeS, p.Ohm),
		Low: 0, High: p.StepV, Unit: "V", Why: "a larger difference wears the contacts; none at all from the start means they are welded or bridged", How: p.How})
	for _, c := range s.res.Contactors {
		if c.Name == p.Contactor {
			s.step(Step{Before: "the rig is left to itself", Where: "across the closed contacts of " + c.Name, What: "voltage at " + s.amps(c.CurrentA),
				Low: 0, High: contactOhm * c.CurrentA, Unit: "V", Why: "more means worn or loose contacts, which heat up"})
		}
	}
}

func (s *study) stepRoof() {
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		for k := range c.Panels {
			p := &c.Panels[k]
			node := panelNode(c, k)
			hot := panel.ColdVoltage(float64(*p.OpenVoltage), float64(p.Series), s.hottest()+roofRise, or(p.VoltageCoefficient, usualVoltSlope))
			x := s.stringNamed(node)
			s.step(Step{Before: node + " is plugged into " + c.Name, Where: "plus to minus of the string, in daylight", What: "open voltage, plus on plus",
				Low: 0.9 * hot, High: x.ColdV, Unit: "V", Why: "reversed or one panel too many breaks the input", How: x.How})
			s.step(Step{Before: node + " is plugged into " + c.Name, Where: "the string shorted through a meter that bears it", What: "current in the sun of the moment",
				Low: 0, High: protect.Continuous * x.ShortA, Unit: "A", Why: "a string in parallel that gives much less has a bad joint"})
		}
	}
}

func (s *study) stringNamed(node string) String {
	for _, x := range s.res.Strings {
		if x.Name == node {
			return x
		}
	}
	return String{}
}

func (s *study) stepDevices() {
	for _, c := range s.rig.Converters {
		v := or(c.Output, usualOutput)
		s.step(Step{Before: "loads are put on " + c.Name, Where: "its output", What: "voltage without load", Low: v * (1 - outputSpread), High: v * (1 + outputSpread), Unit: "V",
			Why: "what hangs on it bears little more"})
	}
	if h := s.rig.Heater; h != nil {
		v := s.res.NominalV
		if r := s.endOf(h.Name); r != nil && r.side > 0 {
			v = r.side
		}
		ohm := v * v / float64(*h.Power)
		s.step(Step{Before: h.Name + " is connected", Where: "the two leads of the pad, cold", What: "resistance, for a pad rated at " + volts(v),
			Low: ohm * (1 - padSpread), High: ohm * (1 + padSpread), Unit: "Ω", Why: "less overheats the cells it lies on"})
	}
}

// stepGuards tries each relay on an adjustable supply before it is trusted.
func (s *study) stepGuards() {
	for _, r := range s.rig.Protection.Relays {
		tol := or(r.Tolerance, usualTolerance)
		for _, x := range []struct {
			name string
			at   float64
		}{{"opens as the voltage rises", s.advised("protection.relays." + r.Name + ".high")}, {"opens as the voltage falls", s.advised("protection.relays." + r.Name + ".low")}} {
			if x.at > 0 {
				s.step(Step{Before: "the rig is left to itself", Where: "sense leads of " + r.Name + " on an adjustable supply", What: "voltage at which it " + x.name + ", set as advised",
					Low: x.at * (1 - tol), High: x.at * (1 + tol), Unit: "V", Why: "a guard that was never seen to act is only hoped for"})
			}
		}
	}
}

// stepRuns is the drop of every run under a known current.
func (s *study) stepRuns() {
	for _, r := range s.runs {
		if r.kind == KindPanels || r.CurrentA == 0 || r.Size == "" {
			continue
		}
		cold := s.coldLoops(r) - s.coldLoops(r.parent)
		s.step(Step{Before: "the rig is left to itself", Where: "the two ends of " + r.Name + ", out and back added", What: "drop at " + s.amps(r.CurrentA),
			Low: 0.9 * cold * r.CurrentA, High: 1.1*r.LoopOhm*r.CurrentA + jointAllowance, Unit: "V", Why: "more means a bad crimp or a loose lug: feel for heat", How: dropHow(r)})
	}
}

// dropHow picks the figure of the drop among those of a run.
func dropHow(r *run) []figure.Use {
	for _, u := range r.How {
		if u.Figure.Name == "voltage-drop" {
			return []figure.Use{u}
		}
	}
	return nil
}

func (s *study) stepFirstCharge() {
	for _, c := range s.rig.Charge {
		v := s.advised("charge." + c.Name + ".settings.absorption")
		if v == 0 {
			continue
		}
		tol := or(c.Tolerance, usualTolerance)
		r := s.endOf(c.Name)
		drop := 0.0
		for at := r; at != nil; at = at.parent {
			drop += at.DropV
		}
		s.step(Step{Before: c.Name + " is left to itself", Where: "plus to minus of the " + circuit.AtBank, What: "voltage as charging ends, set as advised, the first time with someone beside it",
			Low: v*(1-tol) - drop, High: v * (1 + tol), Unit: "V", Why: "the number on the charger's display is not the bank's voltage"})
	}
}

// advised is a set-point of the settings sheet, 0 when it has none: a rig is
// commissioned as fit sets it, whatever the file says today.
func (s *study) advised(path string) float64 {
	for _, x := range s.fit.Settings {
		if v, ok := x.Value.(float64); ok && x.Path == path {
			return v
		}
	}
	return 0
}
