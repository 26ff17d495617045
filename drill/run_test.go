package drill

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/rig"
)

// mended is the whole drill of the mended rig, as Run does it.
func mended(t *testing.T) *study {
	t.Helper()
	if testing.Short() {
		t.Skip("all pairs of a rig take seconds")
	}
	s := newStudy(prepared(t, "curlew", nil), Options{})
	if err := s.drill(context.Background()); err != nil {
		t.Fatal(err)
	}
	return s
}

// The mended rig survives every single fault, and its uncovered pairs are named.
func TestMended(t *testing.T) {
	s := mended(t)
	t.Run("survives every single fault", func(t *testing.T) {
		for _, o := range slices.Concat(s.out.Without, s.out.Single) {
			if o.Outcome == Harm {
				t.Errorf("%s in %s: %s", o.Fault, o.Scene, o.Harm)
			}
		}
		if !s.out.Tolerant || finding.Worst(s.out.Findings) == finding.Stop {
			t.Errorf("tolerant %v, findings %+v", s.out.Tolerant, s.out.Findings)
		}
	})
	t.Run("names its uncovered pairs", func(t *testing.T) { uncoveredPairs(t, s) })
	t.Run("counts", func(t *testing.T) {
		p := s.out.Pairs
		if p.Runs != p.Faults*len(s.scenes) || p.Harm == 0 || p.Harm+p.Near+p.Caught+p.Nuisance > p.Runs {
			t.Errorf("%+v", p)
		}
	})
	t.Run("every addition holds", func(t *testing.T) { additionsHold(t, s) })
	t.Run("summary", func(t *testing.T) { golden.Check(t, "curlew.txt", []byte(summary(s.out))) })
	t.Run("margins", func(t *testing.T) { marginsHold(t, s) })
}

func uncoveredPairs(t *testing.T, s *study) {
	if len(s.out.Uncovered) == 0 || len(s.out.Pairs.Groups) == 0 {
		t.Fatal("nothing is uncovered: no rig is so good")
	}
	grouped := map[[2]string]bool{}
	for _, g := range s.out.Pairs.Groups {
		if g.Cause == "" || g.Common == "" || g.Worst.Outcome != Harm || len(g.Scenes) == 0 {
			t.Errorf("group %+v", g)
		}
		for _, p := range g.Pairs {
			grouped[p] = true
		}
	}
	for _, u := range s.out.Uncovered {
		if len(u.Faults) != 2 || !grouped[[2]string{u.Faults[0], u.Faults[1]}] {
			t.Errorf("%v is in no group", u.Faults)
		}
	}
}

// additionsHold makes each addition that is named anew and plays what it is said
// to cover.
func additionsHold(t *testing.T, s *study) {
	if len(s.trials) == 0 {
		t.Fatal("nothing was tried")
	}
	again := map[string]*play{}
	for _, x := range s.trials {
		r, err := x.with(readRig(t, "curlew"))
		if err != nil {
			t.Fatal(err)
		}
		if again[x.name], err = prepare(r); err != nil {
			t.Fatal(err)
		}
	}
	holds := func(name string, h harmRun) {
		p := again[name]
		var faults []string
		for _, f := range h.faults(func(f int) int { return f }) {
			if p.fault(s.faults[f].Name) >= 0 {
				faults = append(faults, s.faults[f].Name)
			}
		}
		if o := runOf(t, p, s.scenes[h.scene].Name, faults...); o.Outcome == Harm {
			t.Errorf("%s does not cover %v in %s", name, faults, o.Scene)
		}
	}
	for k, key := range sortedKeys(s.grouped) {
		if name := s.out.Pairs.Groups[k].Addition; name != "" {
			for _, h := range s.grouped[key] {
				holds(name, h)
			}
		}
	}
	for _, h := range s.lost {
		if name := s.cover[[2]int{h.a, h.b}]; name != "" {
			holds(name, h)
		}
	}
}

// marginsHold sets the relay as far off as it is said to bear: then no single fault
// ends worse in any scene, whatever runs the search left out.
func marginsHold(t *testing.T, s *study) {
	for _, m := range s.out.Margins {
		if m.Down < 0 || m.Up < 0 || m.Down > m.Range || m.Up > m.Range || m.Tol <= 0 || m.Unit == "" {
			t.Errorf("%+v", m)
		}
		if m.Setting != "high" {
			continue
		}
		for _, by := range []float64{-m.Down, m.Up} {
			r := readRig(t, "curlew")
			writers(r)[m.Path](m.Value + by)
			p, err := prepare(r)
			if err != nil {
				t.Fatal(err)
			}
			for f := range p.faults {
				if p.faults[f].Device == m.Device {
					continue
				}
				for scene := range p.scenes {
					o, err := p.run(scene, f)
					if how := worsened(s.single[f][scene], o, false); err != nil || how != "" {
						t.Errorf("%s off by %g: %s in %s: %s, %v", m.Path, by, o.Fault, o.Scene, how, err)
					}
				}
			}
		}
	}
}

// Where no addition covers a fault alone, two are tried together: without any
// protection a charger that sticks on does harm by voltage and by frost.
func TestTwoAdditionsTogether(t *testing.T) {
	bare := func(r *rig.Rig) { r.Protection, r.Heater = rig.Protection{}, nil }
	s := newStudy(prepared(t, "curlew", bare), Options{NoPairs: true, NoMargins: true})
	if err := s.drill(context.Background()); err != nil {
		t.Fatal(err)
	}
	fault := s.fault("roof solar: stuck at full output")
	name := s.cover[[2]int{fault, -1}]
	k := slices.IndexFunc(s.trials, func(x *trial) bool { return x.name == name })
	if k < 0 || s.trials[k].after == nil {
		t.Fatalf("covered by %q", name)
	}
	r := readRig(t, "curlew")
	bare(r)
	r, err := s.trials[k].with(r)
	if err != nil {
		t.Fatal(err)
	}
	p, err := prepare(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, scene := range p.scenes {
		if o := runOf(t, p, scene.Name, "roof solar: stuck at full output"); o.Outcome == Harm {
			t.Errorf("%s does not cover it in %s: %s", name, scene.Name, o.Harm)
		}
	}
}

// singlesOf is the drill of an example by single faults.
func singlesOf(t testing.TB, name string) *Result {
	t.Helper()
	res, err := Run(context.Background(), readRig(t, name), Options{NoPairs: true, NoAdditions: true, NoMargins: true})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestDraftFailsSeveralSingleFaults(t *testing.T) {
	res := singlesOf(t, "curlew-draft")
	if res.Tolerant || finding.Worst(res.Findings) != finding.Stop || res.Seconds <= 0 {
		t.Errorf("tolerant %v, %v s", res.Tolerant, res.Seconds)
	}
	if len(res.Single) != len(res.Faults)*len(res.Scenes) {
		t.Errorf("%d runs of %d faults in %d scenes", len(res.Single), len(res.Faults), len(res.Scenes))
	}
	failing := map[string]bool{}
	for _, u := range res.Uncovered {
		if len(u.Faults) == 1 {
			failing[u.Faults[0]] = true
		}
	}
	for _, want := range []string{"mains charger: stuck at full output", "mains charger: back on its lead-acid profile", "heater pad: stuck off", "mains inverter: input shorted"} {
		if !failing[want] {
			t.Errorf("%s is not among what fails: %v", want, failing)
		}
	}
	for _, f := range res.Findings {
		if f.ID == "" || f.Where == "" || f.Found == "" || f.Because == "" || f.Mend == "" {
			t.Errorf("not whole: %+v", f)
		}
	}
}

// A drill comes out the same whatever the number of workers, on a rig cut down to
// a dozen faults.
func TestSameWhateverTheWorkers(t *testing.T) {
	var results []*Result
	for _, workers := range []int{1, 2} {
		p := prepared(t, "dipper", nil)
		p.faults, p.troubles = p.faults[14:26], p.troubles[14:26]
		s := newStudy(p, Options{Workers: workers})
		if err := s.drill(context.Background()); err != nil {
			t.Fatal(err)
		}
		results = append(results, s.out)
	}
	if !reflect.DeepEqual(results[0], results[1]) {
		t.Error("one worker and two do not agree")
	}
}

func TestCancelledSoon(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var cancelled time.Time
	res, err := Run(ctx, readRig(t, "curlew"), Options{Progress: func(done, total int) {
		if done == 60 {
			cancelled = time.Now()
			cancel()
		}
		if total < 5000 {
			t.Errorf("%d runs in all", total)
		}
	}})
	if res != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("%v, %v", res, err)
	}
	if late := time.Since(cancelled); late > time.Second {
		t.Errorf("ended %v after it was cancelled", late)
	}
}

func TestPlay(t *testing.T) {
	r := readRig(t, "curlew")
	scenes, faults, err := Names(r)
	if err != nil || len(scenes) != 7 || len(faults) < 40 {
		t.Fatalf("%d scenes, %d faults, %v", len(scenes), len(faults), err)
	}
	strip, err := Play(r, "full sun", "roof solar: stuck at full output", "guard relay: dead")
	if err != nil {
		t.Fatal(err)
	}
	if strip.Out.Outcome != Harm || strip.Fault != "roof solar: stuck at full output" || strip.Second != "guard relay: dead" || len(strip.Time) < 10 {
		t.Errorf("%+v", strip.Out)
	}
	if _, err := Play(r, "full sun"); err != nil {
		t.Errorf("a scene by itself: %v", err)
	}
}

func TestPlayKnowsNoSuchName(t *testing.T) {
	r := readRig(t, "curlew")
	for _, tt := range []struct{ scene, fault, path, lists string }{
		{"frozen", "guard relay: dead", "scene", "frozen dawn"},
		{"moonlight", "guard relay: dead", "scene", "full sun; frozen dawn"},
		{"full sun", "relay", "fault", "guard relay: dead"},
		{"full sun", "zzz", "fault", "and "},
	} {
		_, err := Play(r, tt.scene, tt.fault)
		var input *fit.InputError
		if !errors.As(err, &input) || input.Path != tt.path || !strings.Contains(input.Expected, tt.lists) || input.Example == "" {
			t.Errorf("%s, %s: %v", tt.scene, tt.fault, err)
		}
	}
}

func BenchmarkSingles(b *testing.B) {
	r := readRig(b, "curlew")
	for b.Loop() {
		if _, err := Run(b.Context(), r, Options{NoPairs: true, NoAdditions: true, NoMargins: true}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAllPairs(b *testing.B) {
	r := readRig(b, "curlew")
	for b.Loop() {
		if _, err := Run(b.Context(), r, Options{NoAdditions: true, NoMargins: true}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWholeDrill(b *testing.B) {
	r := readRig(b, "curlew")
	for b.Loop() {
		if _, err := Run(b.Context(), r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
