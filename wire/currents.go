package wire

import (
	"fmt"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/panel"
	"ampstead/rig"
)

// reckon finds the current of every run: what its device draws or gives, and on
// the way to the bank the sum of all that hangs on it.
func (s *study) reckon() {
	s.loadDevices()
	for _, r := range s.runs {
		s.settle(r)
	}
}

// loadDevices puts each device's current on the run that leads to it and on
// every run before.
func (s *study) loadDevices() {
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		s.carry(s.endOf(c.Name), intake{amperes: -float64(*c.Limit), volts: s.res.TopV}, "rating of "+c.Name)
	}
	for i := range s.rig.Inverters {
		inv := &s.rig.Inverters[i]
		s.carry(s.endOf(inv.Name), s.inverterIntake(inv), "full power of "+inv.Name)
	}
	for i := range s.rig.Converters {
		conv := &s.rig.Converters[i]
		s.carry(s.endOf(conv.Name), s.converterIntake(conv), "full power of "+conv.Name)
	}
	if h := s.rig.Heater; h != nil {
		r := s.endOf(h.Name)
		s.carry(r, s.intakeOf(float64(*h.Power), 0, 1, s.voltsOf(r)), "power of "+h.Name)
	}
	s.loadAppliances()
	s.loadPanels()
}

// loadAppliances does the same for appliances fed with dc.
func (s *study) loadAppliances() {
	for i := range s.rig.Loads {
		l := &s.rig.Loads[i]
		r := s.endOf(l.Name)
		if r == nil {
			r = s.endOf(outletOf(l.On))
		}
		if r == nil {
			continue
		}
		s.carry(r, s.intakeOf(float64(*l.Power), or(l.Start, 0), 1, s.voltsOf(r)), "power of "+l.Name)
	}
}

// voltsOf is the voltage that current is drawn at on a run: a converter's output
// or the lowest of the bank.
func (s *study) voltsOf(r *run) float64 {
	if r != nil && r.side > 0 {
		return r.side
	}
	return s.res.LowV
}

// carry adds one current to a run and all runs before it. The hardest start
// counts, not the sum of all.
func (s *study) carry(r *run, in intake, basis string) {
	for at := r; at != nil; at = at.parent {
		if in.amperes < 0 {
			at.gives -= in.amperes
		} else {
			at.draws += in.amperes
		}
		at.surge = max(at.surge, in.surge-in.amperes)
		if at.AtV == 0 || in.volts < at.AtV {
			at.AtV = in.volts
		}
		if in.how.Figure != nil {
			at.How = append(at.How, in.how)
		}
		at.CurrentBasis = joined(at.CurrentBasis, basis, at == r)
	}
}

// joined names what a current rests on: the device itself, or that several share.
func joined(before, basis string, own bool) string {
	switch {
	case before == "":
		return basis
	case own && before != basis:
		return "everything on it together"
	}
	return "everything behind it together"
}

// loadPanels gives each run from the roof its short-circuit current and a quarter.
func (s *study) loadPanels() {
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		for k := range c.Panels {
			p := &c.Panels[k]
			isc, known := panelShort(p)
			if !known {
				s.assume(fmt.Sprintf("%s: short-circuit current not given: taken as a tenth above the current at rated power", panelPath(c, k)))
			}
			u := s.figures.Use(panel.PanelCurrent, figure.N("isc", isc), figure.N("parallel", max(1, p.Parallel)))
			for _, r := range s.runs {
				if node := panelNode(c, k); r.kind == KindPanels && (r.From == node || r.To == node) {
					r.draws, r.AtV, r.OfV = u.Num("current_a"), workVolts(p), workVolts(p)
					r.CurrentBasis, r.How = "short circuit of "+node+", and a quarter", append(r.How, u)
				}
			}
		}
	}
}

// panelShort is the short-circuit current of one string, or a guess at it.
func panelShort(p *rig.PanelString) (amperes float64, known bool) {
	if p.ShortCurrent != nil {
		return float64(*p.ShortCurrent), true
	}
	return 1.1 * float64(*p.Power) * float64(p.Series) / workVolts(p), false
}

// workVolts is a string's voltage at peak power; without one, a sixth below the
// open voltage.
func workVolts(p *rig.PanelString) float64 {
	return or(p.PeakVoltage, float64(*p.OpenVoltage)*5/6) * float64(p.Series)
}

// settle fixes the currents a run is reckoned with.
func (s *study) settle(r *run) {
	if r.From == KindModules {
		main := s.mainRun()
		if main == nil {
			return
		}
		n := float64(r.Count)
		r.draws, r.gives, r.surge, r.AtV = main.draws/n, main.gives/n, main.surge/n, main.AtV
		r.CurrentBasis = "an equal share of the bank's current"
	}
	r.CurrentA = max(r.draws, r.gives)
	r.SurgeA = max(r.CurrentA, r.draws+r.surge)
	r.drawAt = r.CurrentA
	if peak, ok := s.peakOf(r); ok {
		r.drawAt = peak
	}
	r.DropCurrentA = r.drawAt
	if r.OfV == 0 {
		r.OfV = s.res.NominalV
		if r.side > 0 {
			r.OfV = r.side
		}
	}
}

// mainRun is the run that leaves the bank's terminals; the heaviest when several do.
func (s *study) mainRun() *run {
	var main *run
	for _, r := range s.runs {
		if r.From == circuit.AtBank && (main == nil || max(r.draws, r.gives) > max(main.draws, main.gives)) {
			main = r
		}
	}
	return main
}

// peakOf is what a simulation saw in a run.
func (s *study) peakOf(r *run) (float64, bool) {
	if peak, ok := s.opt.PeakA[r.Name]; ok {
		return peak, true
	}
	if peak, ok := s.opt.PeakA[r.To]; ok && s.endOf(r.To) == r {
		return peak, true
	}
	peak := max(s.opt.ChargePeakA, s.opt.DrawPeakA)
	return peak, r.From == circuit.AtBank && peak > 0
}
