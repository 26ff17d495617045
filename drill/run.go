package drill

import (
	"context"
	"fmt"
	"strings"
	"time"

	"ampstead/fit"
	"ampstead/rig"
)

// runner plays a scene with the faults of the given numbers.
type runner func(scene int, faults ...int) (Outcome, error)

// study is one drill: the rig made ready, and what its runs have shown so far.
type study struct {
	*play
	run    runner
	pool   *pool
	o      Options
	base   []Outcome   // by scene
	single [][]Outcome // by fault and scene
	harm   []harmRun   // pairs that reach harm though neither fault alone does
	out    *Result

	grouped map[groupKey][]harmRun
	lost    []harmRun         // every run that reaches harm: single faults, then pairs
	trials  []*trial          // additions that save some of them
	cover   map[[2]int]string // the least addition for a fault or pair

	ready func(*rig.Rig) (*play, runner, error) // makes the rig with a change
}

// Run plays every fault, and every pair of faults, in every scene. It changes
// nothing in r. Errors: *fit.InputError for a value it cannot work with; ctx's
// error when it is cancelled, and then no result.
func Run(ctx context.Context, r *rig.Rig, o Options) (*Result, error) {
	start := time.Now()
	p, err := prepare(r)
	if err != nil {
		return nil, err
	}
	s := newStudy(p, o)
	if err := s.drill(ctx); err != nil {
		return nil, err
	}
	s.out.Seconds = time.Since(start).Seconds()
	return s.out, nil
}

func newStudy(p *play, o Options) *study {
	return &study{play: p, run: p.run, pool: newPool(o), o: o, ready: ready, out: &Result{
		Scenes: p.scenes, Faults: p.faults, Guards: p.guards, Assumed: p.assumed,
		Pairs: Pairs{Groups: []Group{}}, Uncovered: []Uncovered{}, Additions: []Addition{}, Margins: []Margin{},
	}}
}

func ready(r *rig.Rig) (*play, runner, error) {
	p, err := prepare(r)
	if err != nil {
		return nil, nil, err
	}
	return p, p.run, nil
}

// drill does all of it in order; each part rests on those before.
func (s *study) drill(ctx context.Context) error {
	steps := []struct {
		skip bool
		do   func(context.Context) error
	}{
		{false, s.singles},
		{s.o.NoPairs, s.pairs},
		{s.o.NoAdditions, s.additions},
		{s.o.NoMargins, s.margins},
	}
	for _, step := range steps {
		if step.skip {
			continue
		}
		if err := step.do(ctx); err != nil {
			return err
		}
	}
	s.pool.finish()
	s.out.Uncovered = s.uncovered()
	s.out.Rehearsal = s.rehearsal()
	s.out.Figures = s.figures()
	s.out.Findings = s.findings()
	return nil
}

// singles plays every scene by itself, then every fault in every scene.
func (s *study) singles(ctx context.Context) error {
	scenes := len(s.scenes)
	runs := make([]Outcome, (len(s.faults)+1)*scenes)
	s.pool.plan(len(runs) + s.pairRuns())
	s.pool.expect(s.later(len(runs)))
	err := s.pool.each(ctx, len(runs), func(k int) (err error) {
		if k < scenes {
			runs[k], err = s.run(k)
			return err
		}
		runs[k], err = s.run(k%scenes, k/scenes-1)
		return err
	})
	if err != nil {
		return err
	}
	s.base = runs[:scenes]
	s.out.Without, s.out.Single = s.base, runs[scenes:]
	s.out.Tolerant = true
	for f := range s.faults {
		s.single = append(s.single, runs[(f+1)*scenes:(f+2)*scenes])
	}
	for _, o := range s.out.Single {
		s.out.Tolerant = s.out.Tolerant && o.Outcome != Harm
	}
	return nil
}

// Additions and margins play the single faults about so many times over.
const (
	additionsTimes = 9
	marginsTimes   = 12
)

// later is about how many runs come after the pairs, by the number of single ones.
func (s *study) later(singles int) int {
	n := 0
	if !s.o.NoAdditions {
		n += additionsTimes * singles
	}
	if !s.o.NoMargins {
		n += marginsTimes * singles
	}
	return n
}

// Play returns the trace of one run: a scene with one fault, with two, or with
// none. Errors: *fit.InputError with the path "scene" or "fault" for a name that
// is not among those of Names, or for a value of the rig it cannot work with.
func Play(r *rig.Rig, scene string, faults ...string) (*Strip, error) {
	p, err := prepare(r)
	if err != nil {
		return nil, err
	}
	at := p.scene(scene)
	if at < 0 {
		return nil, unknown("scene", scene, names(p.scenes, func(s Scene) string { return s.Name }))
	}
	var numbers []int
	for _, name := range faults {
		k := p.fault(name)
		if k < 0 {
			return nil, unknown("fault", name, names(p.faults, func(f Fault) string { return f.Name }))
		}
		numbers = append(numbers, k)
	}
	strip, err := p.strip(at, numbers...)
	if err != nil {
		return nil, err
	}
	return &strip, nil
}

// Names lists the scenes and faults of a rig. Error: *fit.InputError for a value
// that cannot be worked with.
func Names(r *rig.Rig) (scenes []Scene, faults []Fault, err error) {
	p, err := prepare(r)
	if err != nil {
		return nil, nil, err
	}
	return p.scenes, p.faults, nil
}

func names[T any](list []T, name func(T) string) []string {
	all := make([]string, len(list))
	for k, x := range list {
		all[k] = name(x)
	}
	return all
}

// unknown is the error for a name that is not there. It lists those that share
// its beginning or a word with it, or all of them.
func unknown(what, name string, known []string) error {
	near := []string{}
	for _, k := range known {
		if alike(name, k) {
			near = append(near, k)
		}
	}
	if len(near) == 0 {
		near = known
	}
	const most = 12
	list := strings.Join(near[:min(most, len(near))], "; ")
	if len(near) > most {
		list += fmt.Sprintf("; and %d more", len(near)-most)
	}
	example := ""
	if len(near) > 0 {
		example = near[0]
	}
	return &fit.InputError{Path: what, Message: fmt.Sprintf("there is no %s %.80q", what, name), Expected: "one of: " + list, Example: example}
}

// alike reports whether two names share a word of four letters or more.
func alike(a, b string) bool {
	b = strings.ToLower(b)
	for _, word := range strings.FieldsFunc(strings.ToLower(a), func(r rune) bool { return r == ' ' || r == ':' || r == ',' }) {
		if len(word) >= 4 && strings.Contains(b, word) {
			return true
		}
	}
	return false
}
