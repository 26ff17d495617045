package travel

import (
	"ampstead/assembly"
	"ampstead/fit"
	"ampstead/habit"
	"ampstead/physics/bank"
	"ampstead/rig"
)

// world is a rig ready for any number of years. It does not change and is shared
// by all workers.
type world struct {
	rig     *rig.Rig
	fit     *fit.Result
	route   *route
	table   *bank.Table
	feeds   []string
	loads   []habit.Appliance
	arrays  []array // by charge source
	stepS   float64
	seed    uint64
	alone   bool // nobody switches anything off by hand in frost
	exact   bool // every minute by itself, whether anything can switch or not
	brisk   bool // several minutes at once wherever no load can be cut off and no relay open
	sleeps  bool // inverters are off while nothing asks for them
	assumed []string
}

// array is the panels on one charge source.
type array struct{ strings []panelString }

// panelString is panels that share a temperature coefficient.
type panelString struct{ rated, perK float64 }

// Taken of panels that state no coefficient, 1/K.
const usualPerK = -0.0037

func newWorld(r *rig.Rig, res *fit.Result, way *route, o Options) (*world, error) {
	w := &world{rig: r, fit: res, route: way, stepS: o.StepS, seed: o.Seed}
	var err error
	if w.table, err = bank.NewTable(res.Kind); err != nil {
		return nil, err
	}
	w.feeds = []string{habit.Bank, habit.BeforeDisconnect}
	for i := range r.Converters {
		w.feeds = append(w.feeds, r.Converters[i].Name)
	}
	for i := range r.Inverters {
		w.feeds = append(w.feeds, r.Inverters[i].Name)
	}
	w.loads, w.assumed = habit.Of(r, w.feeds)
	for i := range r.Charge {
		w.arrays = append(w.arrays, arrayOf(&r.Charge[i]))
	}
	a, err := w.assemble(0.5, 15)
	if err != nil {
		return nil, err
	}
	w.assumed = append(a.Assumed, w.assumed...)
	return w, nil
}

func (w *world) assemble(soc, tempC float64) (*assembly.Assembly, error) {
	return assembly.Engine(w.rig, w.fit, assembly.Options{
		SoC: soc, TempC: tempC, MaxStepS: w.longest(), Table: w.table, Silent: true, ByHand: !w.alone,
	})
}

func arrayOf(s *rig.Source) array {
	var a array
	for _, p := range s.Panels {
		perK := usualPerK
		if p.PowerCoefficient != nil {
			perK = float64(*p.PowerCoefficient)
		}
		a.add(panelString{float64(*p.Power) * float64(p.Series*max(1, p.Parallel)), perK})
	}
	return a
}

// add joins strings of one coefficient.
func (a *array) add(s panelString) {
	for i := range a.strings {
		if a.strings[i].perK == s.perK {
			a.strings[i].rated += s.rated
			return
		}
	}
	a.strings = append(a.strings, s)
}

// watts is what the panels could give: P = rated·G/1000·(1 + coefficient·(T − 25 °C)).
func (a *array) watts(plane, cell float64) float64 {
	sum := 0.0
	for i := range a.strings {
		s := &a.strings[i]
		sum += max(0, s.rated*plane/1000*(1+s.perK*(cell-25)))
	}
	return sum
}

// longest is the longest step of the engine, s.
func (w *world) longest() float64 {
	if w.brisk {
		return 60 * hourMinutes
	}
	return longest
}

// nearS is the step (s) near a low cut: in a brisk year an outage may begin a few
// seconds late.
func (w *world) nearS() float64 {
	if w.brisk {
		return 2 * cutS
	}
	return cutS
}
