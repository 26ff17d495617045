package travel

import (
	"fmt"
	"math"
	"slices"

	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// variant is a change to the rig, ready to be run.
type variant struct {
	change, why string
	world       *world
	turned      bool // its panels stand otherwise: it needs its own light
}

// idea is a change that may make sense.
type idea struct {
	change string
	makes  func(s *study, r *rig.Rig) (why string, ok bool) // changes r, whose lists are its own
	world  func(w *world)                                   // or what is run
	turned bool
}

// ideas are tried in this order; equal effects stay in it.
var ideas = []idea{
	{change: "every setting as the settings sheet says", makes: asRecommended},
	{change: "100 W more panel", makes: morePanel},
	{change: "one module more", makes: moreModule},
	{change: "25 mm more insulation", makes: moreInsulation},
	{change: "a heater pad", makes: newHeater},
	{change: "a heater twice as strong", makes: strongerHeater},
	{change: "the widest window that fits", makes: widerWindow},
	{change: "panels tilted to the noon sun", makes: tilted, turned: true},
	{change: "inverters off while nothing asks for them", makes: hasInverter, world: func(w *world) { w.sleeps = true }},
	{change: "a tenth less used", makes: lessUsed},
}

// variants prepares the changes that make sense for a rig.
func (s *study) variants(r *rig.Rig) ([]variant, error) {
	var list []variant
	for _, i := range ideas {
		changed := copyRig(r)
		why, ok := i.makes(s, changed)
		if !ok {
			continue
		}
		w, err := s.changed(changed)
		if err != nil {
			continue // a change the rig's other limits do not bear is no advice
		}
		if i.world != nil {
			i.world(w)
		}
		list = append(list, variant{change: i.change, why: why, world: w, turned: i.turned})
	}
	return list, nil
}

// changed makes the world of a changed rig.
func (s *study) changed(r *rig.Rig) (*world, error) {
	res, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	way, err := routeOf(r, s.o.Weather != nil)
	if err != nil {
		return nil, err
	}
	return newWorld(r, res, way, s.o)
}

// copyRig copies a rig as deep as changes go: lists and what hangs on them by
// pointer is replaced, never written to.
func copyRig(r *rig.Rig) *rig.Rig {
	c := *r
	c.Route = slices.Clone(r.Route)
	c.Charge = slices.Clone(r.Charge)
	for i := range c.Charge {
		c.Charge[i].Panels = slices.Clone(r.Charge[i].Panels)
	}
	c.Converters, c.Inverters = slices.Clone(r.Converters), slices.Clone(r.Inverters)
	c.Loads = slices.Clone(r.Loads)
	c.Protection.Relays = slices.Clone(r.Protection.Relays)
	c.Protection.Meters = slices.Clone(r.Protection.Meters)
	c.Protection.Cutouts = slices.Clone(r.Protection.Cutouts)
	c.Bank.Box, c.Bank.Measured, c.Heater = clone(r.Bank.Box), clone(r.Bank.Measured), clone(r.Heater)
	return &c
}

func clone[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

// asRecommended forgets every setting of the file, so that fit's are taken. It
// makes sense where one differs.
func asRecommended(s *study, r *rig.Rig) (string, bool) {
	n := 0
	for _, set := range s.fit.Settings {
		if set.Differs && set.Today != "not given" {
			n++
		}
	}
	for i := range r.Charge {
		r.Charge[i].Settings = rig.ChargeSettings{}
	}
	for i := range r.Converters {
		r.Converters[i].LowCut, r.Converters[i].Restart = rig.Setting[q.Voltage]{}, rig.Setting[q.Voltage]{}
	}
	for i := range r.Inverters {
		r.Inverters[i].LowCut, r.Inverters[i].Restart = rig.Setting[q.Voltage]{}, rig.Setting[q.Voltage]{}
	}
	for i, x := range r.Protection.Relays {
		r.Protection.Relays[i] = rig.Relay{Name: x.Name, Drives: x.Drives, Tolerance: x.Tolerance, Step: x.Step, Senses: x.Senses}
	}
	for i, x := range r.Protection.Meters {
		r.Protection.Meters[i] = rig.Meter{Name: x.Name, Watches: x.Watches, Tolerance: x.Tolerance, Step: x.Step, Drives: x.Drives}
	}
	if r.Heater != nil {
		r.Heater.On, r.Heater.Off = rig.Setting[q.Temperature]{}, rig.Setting[q.Temperature]{}
	}
	return fmt.Sprintf("%d settings differ from the sheet of fit; cut-outs as they are", n), n > 0
}

// morePanel adds 100 W, shared among the panels there are.
func morePanel(s *study, r *rig.Rig) (string, bool) {
	total := panelWatts(r)
	if total == 0 {
		return "", false
	}
	for i := range r.Charge {
		for j := range r.Charge[i].Panels {
			p := q.Power(float64(*r.Charge[i].Panels[j].Power) * (1 + 100/total))
			r.Charge[i].Panels[j].Power = &p
		}
	}
	return fmt.Sprintf("%.0f W of panel instead of %.0f W, on the same chargers", total+100, total), true
}

func panelWatts(r *rig.Rig) float64 {
	sum := 0.0
	for i := range r.Charge {
		a := arrayOf(&r.Charge[i])
		for _, s := range a.strings {
			sum += s.rated
		}
	}
	return sum
}

// moreModule adds one string like the others: capacity and mass grow by its
// share, resistance falls.
func moreModule(s *study, r *rig.Rig) (string, bool) {
	n := float64(max(1, r.Bank.Strings))
	grow := (n + 1) / n
	r.Bank.Strings = int(n) + 1
	if m := r.Bank.Measured; m != nil {
		m.Capacity, m.Resistance = times(m.Capacity, grow), times(m.Resistance, 1/grow)
		groups := slices.Clone(m.Groups)
		for i := range groups {
			groups[i].Capacity, groups[i].Resistance = times(groups[i].Capacity, grow), times(groups[i].Resistance, 1/grow)
		}
		m.Groups = groups
	}
	r.Bank.Mass = times(r.Bank.Mass, grow)
	return fmt.Sprintf("%g strings instead of %g, in the same box", n+1, n), true
}

func times[Q ~float64](v *Q, by float64) *Q {
	if v == nil {
		return nil
	}
	x := Q(float64(*v) * by)
	return &x
}

// cold reports whether warmth matters to the rig: it has a heater, or cells that
// must not be charged in frost.
func cold(s *study) bool { return s.fit.Kind.Family != cell.LeadAcid }

func moreInsulation(s *study, r *rig.Rig) (string, bool) {
	if r.Bank.Box == nil || !cold(s) {
		return "", false
	}
	now := 0.0
	if r.Bank.Box.Insulation != nil {
		now = float64(*r.Bank.Box.Insulation)
	}
	thick := q.Length(now + 0.025)
	r.Bank.Box.Insulation = &thick
	return fmt.Sprintf("%.0f mm around the bank instead of %.0f mm", 1e3*(now+0.025), 1e3*now), true
}

// newHeaterW is the pad tried where there is none.
const newHeaterW = 60

func newHeater(s *study, r *rig.Rig) (string, bool) {
	if r.Heater != nil || !cold(s) {
		return "", false
	}
	watts := q.Power(newHeaterW)
	r.Heater = &rig.Heater{Name: "heater pad", Power: &watts, Supply: "bank"}
	return fmt.Sprintf("%d W, its thermostat set as fit recommends", newHeaterW), true
}

func strongerHeater(s *study, r *rig.Rig) (string, bool) {
	if r.Heater == nil || !cold(s) {
		return "", false
	}
	now := float64(*r.Heater.Power)
	watts := q.Power(2 * now)
	r.Heater.Power = &watts
	return fmt.Sprintf("%.0f W instead of %.0f W, its thermostat as it is", 2*now, now), true
}

// widerWindow sets chargers and low cuts to the "fuller" choice of fit, where it
// is wider than what is set.
func widerWindow(s *study, r *rig.Rig) (string, bool) {
	if s.fit.Kind.Family == cell.LeadAcid {
		return "", false
	}
	for _, c := range s.fit.Choices {
		if c.Name != "fuller" || !c.Fits {
			continue
		}
		n := float64(r.Bank.Series)
		high := math.Floor(c.CellHighV*n*10+1e-6) / 10
		low := math.Ceil(c.CellLowV*n*10-1e-6) / 10
		wider := widen(r, high, low)
		return fmt.Sprintf("charged to %.1f V, drawn to %.1f V: %s", high, low, c.Why), wider
	}
	return "", false
}

// widen sets what is narrower, and reports whether anything was.
func widen(r *rig.Rig, high, low float64) (wider bool) {
	for i := range r.Charge {
		set := &r.Charge[i].Settings.Absorption
		if set.On() && float64(set.Value) < high {
			set.Value, wider = q.Voltage(high), true
		}
	}
	down := func(set *rig.Setting[q.Voltage]) {
		if set.On() && float64(set.Value) > low {
			set.Value, wider = q.Voltage(low), true
		}
	}
	for i := range r.Inverters {
		down(&r.Inverters[i].LowCut)
	}
	for i := range r.Converters {
		down(&r.Converters[i].LowCut)
	}
	return wider
}

// steepest is the tilt beyond which nobody props a panel, degrees.
const steepest = 60

// tilted turns flat panels to the noon sun, by the latitude.
func tilted(s *study, r *rig.Rig) (string, bool) {
	any := false
	for i := range r.Route {
		stay := &r.Route[i]
		if stay.Latitude == nil || stay.Tilt != nil && *stay.Tilt != 0 {
			continue
		}
		lat := float64(*stay.Latitude)
		tilt := q.Angle(min(steepest, 5*math.Round(math.Abs(lat)/5)))
		facing := q.Angle(180)
		if lat < 0 {
			facing = 0
		}
		stay.Tilt, stay.Facing = &tilt, &facing
		any = true
	}
	return "at every stay by its latitude, up to 60°, towards the equator", any && panelWatts(r) > 0
}

func hasInverter(s *study, r *rig.Rig) (string, bool) {
	idle := 0.0
	for _, v := range r.Inverters {
		if v.Idle != nil {
			idle += float64(*v.Idle)
		}
	}
	return fmt.Sprintf("switched off by hand or by its own search mode; idle they draw %.0f W", idle), idle > 0
}

func lessUsed(s *study, r *rig.Rig) (string, bool) {
	for i := range r.Loads {
		r.Loads[i].Power = times(r.Loads[i].Power, 0.9)
	}
	return "every appliance asks for nine tenths", len(r.Loads) > 0
}
