package drill

import (
	"ampstead/assembly"
	"ampstead/device"
	"ampstead/engine"
)

// turn is one run: a scene on its own assembly, with the faults worked in.
type turn struct {
	p      *play
	scene  int
	faults []int
	stage  *stage
	a      *assembly.Assembly
	e      *engine.Engine
	log    *engine.Log

	share       float64 // current of the hardest-driven cell over an equal share
	stringsLost int
	warmerK     float64       // the surroundings are warmer than the scene by
	strikes     []func() bool // what strikes once the scene is under way; true when it has
	broken      bool          // a short that nothing clears
	err         error         // of a fault that could not be worked in

	beat  int
	steps int
	pace  pace
	watch watch
}

// mostEvents is how many devices can change what they do in one step.
const mostEvents = 64

func (p *play) begin(scene int, faults []int) (*turn, error) {
	a, err := p.assemble(scene)
	if err != nil {
		return nil, err
	}
	t := &turn{p: p, scene: scene, faults: faults, stage: &p.stages[scene], a: a, e: a.Engine, share: 1, beat: -1}
	t.log = engine.NewLog(mostEvents)
	t.e.Log = t.log
	if t.stage.stored {
		t.putAway()
	}
	for _, k := range faults {
		p.troubles[k].strike(t)
	}
	if t.err != nil {
		return nil, t.err
	}
	t.watch.begin(t)
	t.pace.begin(t)
	return t, nil
}

// wrap replaces a part's device by what a fault makes of it.
func (t *turn) wrap(part string, with func(device.Device) device.Device) {
	if err := t.e.Wrap(part, with); err != nil && t.err == nil {
		t.err = err
	}
}

// putAway switches off by hand what has a switch: the pad, what idles, and the
// disconnect.
func (t *turn) putAway() {
	if t.a.Pad != nil {
		t.a.Pad.PowerW = 0
	}
	for i := range t.a.Converters {
		t.a.Converters[i].Device.IdleW = 0
	}
	for i := range t.a.Inverters {
		t.a.Inverters[i].Device.IdleW = 0
	}
	for _, c := range t.p.rig.Protection.Contactors {
		t.wrap(c.Name, func(device.Device) device.Device { return fixed{State: device.Open, Stop: true} })
	}
}

// play steps through the scene and watches. s takes the trace, or is nil.
func (t *turn) play(s *Strip) {
	for t.e.Time() < t.stage.seconds-1e-6 && !t.over() {
		t.set()
		dt := t.pace.next(t)
		t.e.Step(dt)
		t.watch.step(t, dt)
		t.steps++
		if s != nil {
			s.note(t)
		}
	}
}

// afterS is how long a run goes on past harm, to see what a late layer still
// does; the margin of a run that ends in harm is that at its end.
const afterS = 600.0

// mostTrips is how often a guard comes and goes before a run is ended: it would
// go on so.
const mostTrips = 12

// over reports whether the outcome can change no more.
func (t *turn) over() bool {
	w := &t.watch
	return t.broken || w.trips >= mostTrips || w.harmAt >= 0 && t.e.Time() >= w.harmAt+afterS
}

// set gives the devices what the scene has for them now.
func (t *turn) set() {
	now := t.e.Time()
	st := t.stage
	t.e.SurroundingC = along(st.air, now) + t.warmerK
	for i := range t.a.Chargers {
		t.supply(i, now)
	}
	if t.beat+1 < len(st.beats) && now >= st.beats[t.beat+1].at-1e-6 {
		t.beat++
		t.demand(&st.beats[t.beat])
		t.pace.event(now)
	}
	for k := 0; k < len(t.strikes); k++ {
		if t.strikes[k]() {
			t.strikes = append(t.strikes[:k], t.strikes[k+1:]...)
			t.pace.event(now)
			k--
		}
	}
}

func (t *turn) supply(i int, now float64) {
	c := &t.a.Chargers[i]
	c.Device.SupplyW = 0
	switch c.Source.Kind {
	case "solar":
		if t.stage.sun != nil {
			c.Device.SupplyW = along(t.stage.sun[i], now) * c.Efficiency
		}
	case "mains":
		c.Device.SupplyW = t.stage.mainsW
	case "alternator":
		if t.stage.drives {
			c.Device.SupplyW = unboundedW
		}
	}
}

func (t *turn) demand(b *beat) {
	for i := range t.a.Converters {
		t.a.Converters[i].Device.DemandW = b.converters[i]
	}
	for i := range t.a.Inverters {
		t.a.Inverters[i].Device.DemandW = b.inverters[i]
	}
	for i := range t.a.Direct {
		side := 0
		if t.a.Direct[i].BankSide {
			side = 1
		}
		t.a.Direct[i].Device.W = b.direct[side]
	}
}
