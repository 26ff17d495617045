package wire

import (
	"fmt"

	"ampstead/circuit"
	"ampstead/physics/conductor"
	q "ampstead/quantity"
	"ampstead/rig"
)

// run is one circuit while it is worked on.
type run struct {
	Circuit
	size   q.Size
	gauge  q.Gauge // system its size is chosen in
	in     conductor.Surroundings
	parent *run    // towards the bank, nil at the bank, at a converter's output and at panels
	kind   string  // of the node at its end
	draws  float64 // A out of the bank through it
	gives  float64 // A towards the bank
	surge  float64 // A on top of draws, for seconds
	side   float64 // V of the side it lies on, when it is not the bank's
	drawAt float64 // A the drop is reckoned at
	guard  *fused  // fuse that protects it
}

// Lengths assumed of runs that are not written down, one way, m.
const (
	assumedModules = 0.4
	assumedMain    = 1.0
	assumedBranch  = 2.0
	assumedRoof    = 5.0
)

// layOut finds every run: those written down, from the bank outwards, then those
// that are missing.
func (s *study) layOut() {
	s.devices = s.listDevices()
	s.kinds = s.kindsOf()
	s.modules()
	if s.busAdrift() {
		s.propose("bank to bus", circuit.AtBank, circuit.AtBus, assumedMain)
	}
	s.written()
	for _, d := range s.devices {
		if s.endOf(d.name) == nil {
			s.propose(d.from+" to "+d.short, d.from, d.name, assumedBranch)
		}
	}
	s.roof()
	s.nodes()
}

// busAdrift reports whether bus bars are needed and no cable leads to them.
func (s *study) busAdrift() bool {
	if circuit.Way(s.rig.Cables, circuit.AtBank, circuit.AtBus) != nil {
		return false
	}
	for _, d := range s.devices {
		if d.from == circuit.AtBus && circuit.Way(s.rig.Cables, circuit.AtBank, d.name) == nil {
			return true
		}
	}
	return s.cabled(circuit.AtBus)
}

// modules is the run from each string of modules to the bank's terminals.
func (s *study) modules() {
	if s.short.Strings < 2 {
		return
	}
	r := s.propose("each module to the bank's terminals", KindModules, circuit.AtBank, assumedModules)
	r.Count = s.short.Strings
}

// roof is the run from each string of panels to its charger.
func (s *study) roof() {
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		for k := range c.Panels {
			if node := panelNode(c, k); !s.cabled(node) {
				s.propose(node+" to "+c.Name, node, c.Name, assumedRoof)
			}
		}
	}
}

// written walks the cables of the file outwards from the bank; what is not
// connected to it comes last.
func (s *study) written() {
	done := map[*rig.Cable]bool{}
	reached := []string{circuit.AtBank}
	seen := map[string]bool{circuit.AtBank: true}
	if s.endOf(circuit.AtBus) != nil {
		reached, seen[circuit.AtBus] = append(reached, circuit.AtBus), true
	}
	for k := 0; k < len(reached); k++ {
		for i := range s.rig.Cables {
			c := &s.rig.Cables[i]
			end := circuit.OtherEnd(c, reached[k])
			if end == "" || done[c] {
				continue
			}
			done[c] = true
			s.add(c, reached[k], end)
			if !seen[end] {
				seen[end] = true
				reached = append(reached, end)
			}
		}
	}
	for i := range s.rig.Cables {
		if c := &s.rig.Cables[i]; !done[c] {
			s.add(c, c.From, c.To)
		}
	}
}

// add makes a run of a cable of the file.
func (s *study) add(c *rig.Cable, from, to string) {
	if s.kindOf(from) == KindInverter {
		s.assume(fmt.Sprintf("cables.%s lies on the mains side of %s: not reckoned here", c.Name, from))
		return
	}
	r := s.place(&run{Circuit: Circuit{Name: c.Name, Path: "cables." + c.Name, From: from, To: to, LengthM: float64(*c.Length), Count: 1}})
	r.size, r.gauge = *c.Size, c.Size.Gauge
	r.in = conductor.Surroundings{InsulationC: or(c.Insulation, usualInsulation), Place: c.Place, Bundle: max(1, c.Bundle),
		AmbientC: or(c.Ambient, s.hottest()), LugsC: or(c.Lugs, usualLugs), Volts: s.sideVolts(r)}
	r.DropLimit = 100 * or(c.DropLimit, dropClass(r.kind)/100)
}

// propose makes a run that the file does not have.
func (s *study) propose(name, from, to string, length float64) *run {
	r := s.place(&run{Circuit: Circuit{Name: name, Proposed: true, From: from, To: to, LengthM: length, LengthAssumed: true, Count: 1}})
	r.gauge = q.MM2
	if s.sys == q.US {
		r.gauge = q.AWG
	}
	r.in = conductor.Surroundings{InsulationC: usualInsulation, Bundle: 1, AmbientC: s.hottest(), LugsC: usualLugs, Volts: s.sideVolts(r)}
	r.DropLimit = dropClass(r.kind)
	return r
}

// What is assumed of a conductor that does not say, °C.
const (
	usualInsulation = 105.0
	usualLugs       = 75.0
	usualAir        = 30.0
)

// place hangs a run into the tree.
func (s *study) place(r *run) *run {
	s.runs = append(s.runs, r)
	r.kind = s.kindOf(r.To)
	from := s.kindOf(r.From)
	switch {
	case r.kind == KindPanels || from == KindPanels:
		r.kind = KindPanels
	case from == KindConverter:
		r.side = s.outputOf(r.From)
	case from != KindBank && from != KindModules:
		if r.parent = s.endOf(r.From); r.parent != nil {
			r.side = r.parent.side
		}
	}
	return r
}

// endOf is the run that leads to a node from the bank's side, nil when none does.
func (s *study) endOf(node string) *run {
	for _, r := range s.runs {
		if r.To == node && s.kindOf(r.From) != KindPanels {
			return r
		}
	}
	return nil
}

// hottest is the air a run may lie in: that of the hottest stay, 30 °C at least.
func (s *study) hottest() float64 {
	hot := usualAir
	for _, stay := range s.rig.Route {
		hot = max(hot, or(stay.Hottest, usualAir))
	}
	return hot
}

// sideVolts is the highest voltage on a run: of a converter's output or the bank.
func (s *study) sideVolts(r *run) float64 {
	if r.side > 0 {
		return r.side
	}
	return s.res.TopV
}

// dropClass is the drop in percent that the trade permits for what is fed: 10 %
// only for a heater; whether another load is critical its owner says by
// drop_limit.
func dropClass(kind string) float64 {
	if kind == KindHeater {
		return 10
	}
	return 3
}
