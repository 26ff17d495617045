package prove

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// score counts how often a truth lies within so many standard errors.
type score struct {
	within1, within2, all int
	square                float64
}

func (s *score) add(got, sigma, want float64) {
	away := math.Abs(got-want) / sigma
	s.all++
	s.square += (got - want) * (got - want)
	if away <= 1 {
		s.within1++
	}
	if away <= 2 {
		s.within2++
	}
}

func (s *score) String() string {
	return fmt.Sprintf("%d of %d within one error, %d within two, %.2f off (rms)", s.within1, s.all, s.within2, math.Sqrt(s.square/float64(s.all)))
}

// check fails unless the errors stated are those found: at least two thirds within
// one, nine of ten within two, for the groups of a module err together.
func (s *score) check(t *testing.T, what string) {
	t.Helper()
	t.Logf("%s: %s", what, s)
	if 3*s.within1 < 2*s.all || 10*s.within2 < 9*s.all {
		t.Errorf("%s: %s", what, s)
	}
}

// Modules of known groups whose curve lies off the library's are told within
// their stated errors.
func TestGroupsOfKnownModules(t *testing.T) {
	for _, name := range []string{"lmo-blend-pouch", "nmc532"} {
		kind := lookup(t, name)
		r := rand.New(rand.NewPCG(11, 3))
		var capacity, offset, lost score
		for trial := range uint64(12) {
			own := off(t, kind, r)
			spec, tr := module(own, r)
			b := newBench(t, spec, trial)
			b.run(0, 3600, 60, nil)
			b.run(-15, 6*3600, 10, emptied(3.0))
			b.run(0, 3600, 60, nil)
			res := b.judged(t, Options{Cell: name})
			for k, g := range res.Groups {
				if g.Unknown != "" {
					t.Fatalf("%s trial %d: %s", name, trial, g.Unknown)
				}
				capacity.add(g.CapacityAh, g.CapacityErr, tr.ah[k])
				offset.add(g.OffsetAh, g.OffsetErr, tr.behind[k])
				lost.add(g.LostAh, g.LostErr, tr.lost[k])
			}
		}
		capacity.check(t, name+" capacity")
		offset.check(t, name+" offset")
		lost.check(t, name+" lost")
	}
}

// A test that stops early, or starts part empty, is told with a wider error or not
// at all; never beyond its error.
func TestGroupsOfPartialTests(t *testing.T) {
	for _, row := range []struct {
		name       string
		start, out float64 // state of charge at the start, charge drawn over capacity
	}{
		{"from full to about 40 %", 1, 0.6}, {"from 80 to about 20 %", 0.8, 0.6}, {"from full to about 75 %", 1, 0.25},
	} {
		kind := lookup(t, "lmo-blend-pouch")
		r := rand.New(rand.NewPCG(3, 8))
		var capacity, lost score
		untold := 0
		for trial := range uint64(12) {
			own := off(t, kind, r)
			spec, tr := module(own, r)
			for k := range spec.GroupSoC {
				spec.GroupSoC[k] -= (1 - row.start) * 60 / tr.ah[k]
			}
			b := newBench(t, spec, trial)
			b.run(0, 3600, 60, nil)
			b.run(-15, row.out*60/15*3600, 10, emptied(3.0))
			res := b.judged(t, Options{Cell: kind.Name})
			for k, g := range res.Groups {
				if g.Unknown != "" {
					untold++
					continue
				}
				capacity.add(g.CapacityAh, g.CapacityErr, tr.ah[k])
				lost.add(g.LostAh, g.LostErr, tr.lost[k])
			}
		}
		t.Logf("%s: %d groups not told", row.name, untold)
		if capacity.all > 0 {
			capacity.check(t, row.name+", capacity")
			lost.check(t, row.name+", lost")
		}
	}
}

// Iron-phosphate groups are told from full to empty and refused where they begin
// or end within the flat part of the curve.
func TestIronPhosphateGroups(t *testing.T) {
	kind := lookup(t, "lfp")
	r := rand.New(rand.NewPCG(4, 4))
	spec, tr := module(kind, r)
	full := newBench(t, spec, 1)
	full.run(0, 3600, 60, nil)
	full.run(-15, 6*3600, 10, emptied(2.5))
	var capacity score
	for k, g := range full.judged(t, Options{Cell: "lfp"}).Groups {
		if (g.Unknown == "") != (tr.behind[k] < 0.02*tr.ah[k]) {
			t.Errorf("group %d, %.1f Ah below full: %q", k+1, tr.behind[k], g.Unknown)
		}
		if g.Unknown != "" {
			continue
		}
		capacity.add(g.CapacityAh, g.CapacityErr, tr.ah[k])
	}
	capacity.check(t, "from full to empty")

	part := newBench(t, spec, 1)
	part.run(-15, 3600, 60, nil)
	part.run(0, 3600, 60, nil)
	part.run(-15, 3600, 10, nil)
	for _, g := range part.judged(t, Options{Cell: "lfp"}).Groups {
		if g.Unknown == "" || g.CapacityAh != 0 || g.LostAh != 0 {
			t.Errorf("told within the flat part: %+v", g)
		}
	}
}

// Without a rest before the load the trace alone tells, less surely.
func TestGroupsWithoutARest(t *testing.T) {
	kind := lookup(t, "lmo-blend-pouch")
	spec, tr := module(kind, rand.New(rand.NewPCG(2, 2)))
	b := newBench(t, spec, 1)
	b.run(-15, 6*3600, 10, emptied(3.0))
	for k, g := range b.judged(t, Options{Cell: kind.Name}).Groups {
		if g.RestV != 0 {
			t.Errorf("rest voltage %v of a log without a rest", g.RestV)
		}
		if away := math.Abs(g.CapacityAh - tr.ah[k]); g.Unknown == "" && away > 2*g.CapacityErr {
			t.Errorf("group %d: %.1f ± %.1f Ah, is %.1f", k+1, g.CapacityAh, g.CapacityErr, tr.ah[k])
		}
	}
}

// The sum of the groups hides the weakest: a log without group voltages says so.
func TestLogWithoutGroups(t *testing.T) {
	kind := lookup(t, "lmo-blend-pouch")
	spec, _ := module(kind, rand.New(rand.NewPCG(2, 3)))
	b := newBench(t, spec, 1)
	b.run(0, 1800, 60, nil)
	b.run(-15, 6*3600, 10, emptied(3.0))
	for k := range b.rows {
		b.rows[k].Groups = nil
	}
	b.hidden = true
	res := b.judged(t, Options{Cell: kind.Name, Groups: 6})
	if len(res.Groups) != 0 || res.Limiting != 0 || res.Series != 6 {
		t.Errorf("groups %v, limiting %d of %d", res.Groups, res.Limiting, res.Series)
	}
	found := false
	for _, f := range res.Findings {
		found = found || f.ID == "no-group-voltages"
	}
	if !found {
		t.Error("no finding")
	}
}
