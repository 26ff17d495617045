package drill

import (
	"context"
	"slices"

	"ampstead/fit"
	"ampstead/rig"
)

// trial is an addition with what the runs showed.
type trial struct {
	*addition
	saves []bool // of the runs that reach harm, in their order
	out   Addition
}

// additions tries what would cover the runs that reach harm: it changes a copy of
// the rig, and plays the same runs again.
func (s *study) additions(ctx context.Context) error {
	s.lost = append(s.failures(), s.harm...)
	if len(s.lost) == 0 {
		return nil
	}
	for _, e := range catalogue {
		if err := s.try(ctx, e.on(s.rig, s.fit)); err != nil {
			return err
		}
	}
	if err := s.tryTwo(ctx); err != nil {
		return err
	}
	s.assign()
	return nil
}

// on makes the addition to a rig, nil where it is of no use.
func (e entry) on(r *rig.Rig, res *fit.Result) *addition {
	a := e(r, res)
	if a != nil {
		a.entry = e
	}
	return a
}

// with is the rig with an addition, and with the one before it.
func (a *addition) with(r *rig.Rig) (*rig.Rig, error) {
	c := copyOf(r)
	if a.after != nil {
		var err error
		if c, err = a.after.with(r); err != nil {
			return nil, err
		}
	}
	a.change(c)
	return c, setAsAdvised(c, a.sheets)
}

// altered is this study's scenes and faults on another rig.
type altered struct {
	*play
	run  runner
	from []int // this study's faults by number there, -1 where there is none
}

func (s *study) on(r *rig.Rig) (*altered, error) {
	p, run, err := s.ready(r)
	if err != nil {
		return nil, err
	}
	a := &altered{play: p, run: run, from: make([]int, len(s.faults))}
	for k, f := range s.faults {
		a.from[k] = p.fault(f.Name)
	}
	return a, nil
}

// replay plays a run of this study on the other rig. A fault that rig cannot have
// is left out.
func (a *altered) replay(h harmRun) (Outcome, error) {
	var faults []int
	for _, f := range h.faults(func(f int) int { return a.from[f] }) {
		if f >= 0 {
			faults = append(faults, f)
		}
	}
	return a.run(h.scene, faults...)
}

// try plays the runs that reach harm with an addition, and keeps it when it saves
// any of them.
func (s *study) try(ctx context.Context, a *addition) error {
	if a == nil {
		return nil
	}
	r, err := a.with(s.rig)
	if err != nil {
		return err
	}
	on, err := s.on(r)
	if err != nil {
		return err
	}
	t := &trial{addition: a, saves: make([]bool, len(s.lost))}
	if err := s.replay(ctx, on, t); err != nil || !slices.Contains(t.saves, true) {
		return err
	}
	if err := s.price(ctx, on, t); err != nil {
		return err
	}
	s.trials = append(s.trials, t)
	return nil
}

// replay plays the runs of the kinds of harm the addition is against.
func (s *study) replay(ctx context.Context, on *altered, t *trial) error {
	var which []int
	for k, h := range s.lost {
		if slices.Contains(t.against, h.out.Harm) {
			which = append(which, k)
		}
	}
	s.pool.plan(len(which))
	return s.pool.each(ctx, len(which), func(k int) error {
		o, err := on.replay(s.lost[which[k]])
		t.saves[which[k]] = o.Outcome != Harm
		return err
	})
}

// price plays everything else an addition could spoil: scenes with nothing wrong,
// every single fault, and the faults of what was added.
func (s *study) price(ctx context.Context, on *altered, t *trial) error {
	t.out = Addition{Name: t.name, About: t.about, Of: len(s.lost), Causes: []string{}}
	for _, saved := range t.saves {
		if saved {
			t.out.Covers++
		}
	}
	runs := s.others(on)
	outs := make([]Outcome, len(runs))
	s.pool.plan(len(runs))
	err := s.pool.each(ctx, len(runs), func(k int) (err error) {
		outs[k], err = on.run(runs[k].scene, runs[k].faults...)
		return err
	})
	for k, o := range outs {
		before := runs[k].before
		if o.Outcome == Harm && before.Outcome != Harm {
			t.out.Creates++
		}
		if o.LostPower && !before.LostPower && before.Outcome != Harm {
			t.out.Loss++
		}
	}
	return err
}

// rerun is a run on the altered rig and what came of it before.
type rerun struct {
	scene  int
	faults []int
	before Outcome // of a fault that was not there before, the scene by itself
}

func (s *study) others(on *altered) []rerun {
	known := make([]int, len(on.faults))
	for k := range known {
		known[k] = -1
	}
	for k, there := range on.from {
		if there >= 0 {
			known[there] = k
		}
	}
	var list []rerun
	for scene, before := range s.base {
		list = append(list, rerun{scene, nil, before})
		for there, k := range known {
			o := rerun{scene, []int{there}, before}
			if k >= 0 {
				o.before = s.single[k][scene]
			}
			list = append(list, o)
		}
	}
	return list
}
