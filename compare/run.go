package compare

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"ampstead/drill"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/wire"
)

// Options say how far to compare. The zero Options are the file, fit and wire.
type Options struct {
	Travel   bool                  // also the year on the road
	Drill    bool                  // also every single fault
	Years    int                   // weather years of travel; 0 is one
	Units    string                // of the texts of findings: "metric", "us", or "" for those of the later rig
	Progress func(done, total int) // of travel and drill, in hundredths; may be nil, called from one goroutine at a time
}

// study is one comparison.
type study struct {
	o        Options
	out      *Result
	sides    [2]*one
	progress *progress
}

// one is one of the two rigs and what was reckoned of it.
type one struct {
	name     string // "was" or "is"
	rig      *rig.Rig
	fit      *fit.Result
	entries  []entry
	findings [][]finding.Finding
}

// Run compares a with b, the later one. It changes neither. What a stage cannot work
// with is part of the result. Error: ctx's when it is cancelled, or an internal one.
func Run(ctx context.Context, a, b *rig.File, o Options) (*Result, error) {
	s := &study{o: o, out: &Result{
		Was: Side{Name: a.Rig.About.Name, File: a.Path}, Is: Side{Name: b.Rig.About.Name, File: b.Path},
		Changes: rig.Changes(a, b), Same: bytes.Equal(a.Text, b.Text), Stages: []string{}, Missing: []Gap{}, Notes: []string{},
	}}
	if s.out.Changes == nil {
		s.out.Changes = []rig.Changed{}
	}
	if o.Units == "" { // both read alike
		o.Units = b.Rig.About.Units
	}
	s.sides = [2]*one{{name: "was", rig: inUnits(a.Rig, o.Units)}, {name: "is", rig: inUnits(b.Rig, o.Units)}}
	s.progress = newProgress(o)
	for _, stage := range s.stages() {
		if err := s.reckon(ctx, stage.name, stage.run); err != nil {
			return nil, err
		}
	}
	s.gather()
	return s.out, nil
}

// inUnits is the rig with its texts in the given units.
func inUnits(r *rig.Rig, units string) *rig.Rig {
	other := *r
	other.About.Units = units
	return &other
}

// reckoner works out one stage of one rig.
type reckoner func(context.Context, *one) ([]entry, []finding.Finding, error)

type stage struct {
	name string
	run  reckoner
}

func (s *study) stages() []stage {
	list := []stage{{Fit, s.fit}, {Wire, s.wire}}
	if s.o.Travel {
		list = append(list, stage{Travel, s.travel})
	}
	if s.o.Drill {
		list = append(list, stage{Drill, s.drill})
	}
	return list
}

// reckon works out a stage for both, or says what is missing.
func (s *study) reckon(ctx context.Context, name string, run reckoner) error {
	var entries [2][]entry
	var findings [2][]finding.Finding
	if name != Fit && (s.sides[0].fit == nil || s.sides[1].fit == nil) {
		return nil // all rest on fit, of which it was said
	}
	gaps := len(s.out.Missing)
	for i, one := range s.sides {
		var err error
		entries[i], findings[i], err = run(ctx, one)
		var in *fit.InputError
		switch {
		case errors.As(err, &in):
			s.out.Missing = append(s.out.Missing, Gap{name, one.name, in.Path, in.Message, in.Expected, in.Example})
		case err != nil:
			return err
		}
	}
	if len(s.out.Missing) > gaps {
		return ctx.Err()
	}
	s.out.Stages = append(s.out.Stages, name)
	for i, one := range s.sides {
		one.entries = append(one.entries, entries[i]...)
		one.findings = append(one.findings, findings[i])
	}
	return ctx.Err()
}

func (s *study) fit(_ context.Context, one *one) ([]entry, []finding.Finding, error) {
	res, err := fit.Run(one.rig)
	if err != nil {
		return nil, nil, err
	}
	one.fit = res
	return fitEntries(res), res.Findings, nil
}

func (s *study) wire(_ context.Context, one *one) ([]entry, []finding.Finding, error) {
	res, err := wire.Run(one.rig, one.fit, wire.Options{})
	if err != nil {
		return nil, nil, err
	}
	return wireEntries(res), res.Findings, nil
}

func (s *study) travel(ctx context.Context, one *one) ([]entry, []finding.Finding, error) {
	res, err := travel.Run(ctx, one.rig, travel.Options{Years: s.o.Years, Progress: s.progress.part()})
	if err != nil {
		return nil, nil, err
	}
	if one.name == "is" {
		s.out.Notes = append(s.out.Notes, fmt.Sprintf("The year on the road: the first of the same %d weather years for both, each on its own route, and the band over all of them.", res.Bands.Years))
	}
	return travelEntries(res), res.Findings, nil
}

func (s *study) drill(ctx context.Context, one *one) ([]entry, []finding.Finding, error) {
	res, err := drill.Run(ctx, one.rig, drill.Options{NoPairs: true, NoAdditions: true, NoMargins: true, Progress: s.progress.part()})
	if err != nil {
		return nil, nil, err
	}
	if one.name == "is" {
		s.out.Notes = append(s.out.Notes, "Drill: single faults only, each in every scene; a rig with more devices has more faults to play.")
	}
	return drillEntries(res), res.Findings, nil
}
