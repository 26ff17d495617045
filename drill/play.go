package drill

import (
	"slices"

	"ampstead/assembly"
	"ampstead/fit"
	"ampstead/physics/bank"
	"ampstead/rig"
)

// play is a rig made ready to be drilled. It never changes once prepared, and
// any number of goroutines may run it.
type play struct {
	rig     *rig.Rig
	fit     *fit.Result
	scenes  []Scene
	faults  []Fault
	guards  []Guard
	assumed []string

	stages   []stage   // of the scenes
	troubles []trouble // of the faults
	table    *bank.Table
	limits   limits
	parts    []kind    // of the engine's parts
	signs    []float64 // by scene: the first sign there is with nothing wrong, s, or -1
	finer    float64   // steps are shorter by this factor; 0 is 1
}

// prepare makes scenes, faults and guards of a rig. Error: *fit.InputError for a
// value that cannot be worked with.
func prepare(r *rig.Rig) (*play, error) {
	res, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	p := &play{rig: r, fit: res, limits: limitsOf(r, res)}
	if p.table, err = bank.NewTable(res.Kind); err != nil {
		return nil, err
	}
	s := makeScenes(r, res)
	p.scenes, p.stages, p.assumed = s.scenes, s.stages, s.assumed
	a, err := p.assemble(0)
	if err != nil {
		return nil, err
	}
	p.assumed = append(a.Assumed, p.assumed...)
	p.parts = kindsOf(a)
	p.guards = guardsOf(r, a)
	for _, t := range troublesOf(r, res, a) {
		p.faults, p.troubles = append(p.faults, t.Fault), append(p.troubles, t)
	}
	return p, p.sound()
}

// sound plays every scene with nothing wrong, for the signs it gives by itself.
func (p *play) sound() error {
	p.signs = make([]float64, len(p.scenes))
	for k := range p.scenes {
		o, err := p.run(k)
		if err != nil {
			return err
		}
		p.signs[k] = o.AlarmAt
	}
	return nil
}

func (p *play) assemble(scene int) (*assembly.Assembly, error) {
	st := &p.stages[scene]
	return assembly.Engine(p.rig, p.fit, assembly.Options{SoC: st.soc, TempC: st.bankC, MaxStepS: st.seconds, Table: p.table})
}

// run plays a scene with faults, by their numbers; none is the scene by itself.
// Its error is that of the engine for values it refuses.
func (p *play) run(scene int, faults ...int) (Outcome, error) {
	t, err := p.begin(scene, faults)
	if err != nil {
		return Outcome{}, err
	}
	t.play(nil)
	return t.outcome(), nil
}

// strip is run with its trace kept.
func (p *play) strip(scene int, faults ...int) (Strip, error) {
	t, err := p.begin(scene, faults)
	if err != nil {
		return Strip{}, err
	}
	k := &p.fit.Window
	s := Strip{Scene: p.scenes[scene].Name, HarmLo: k.CellLowV, HarmHi: k.CellHighV,
		FrostC: p.fit.Kind.ChargeMinC.Value, HotMax: p.fit.Kind.HarmC.Value}
	t.play(&s)
	s.thin()
	s.Out = t.outcome()
	s.Fault, s.Second = s.Out.Fault, s.Out.Second
	return s, nil
}

// fault finds a fault by name, or returns -1.
func (p *play) fault(name string) int {
	return slices.IndexFunc(p.faults, func(f Fault) bool { return f.Name == name })
}

// scene finds a scene by name, or returns -1.
func (p *play) scene(name string) int {
	return slices.IndexFunc(p.scenes, func(s Scene) bool { return s.Name == name })
}
