package drill

import (
	"ampstead/internal/worked"
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/rig"
)

// The faults of a made-up rig in which everything is plain: with the sun up, a
// stuck charger is caught by the relay through its contactor; a spoilt fuse alone
// brings harm at night.
const (
	stuck = iota
	deaf
	stuckOpen
	weld
	lamp
	spoilt
)

var toyFaults = []Fault{
	stuck:     {Name: "roof solar: stuck on", Device: "roof solar", Kind: "stuck source", Tells: true},
	deaf:      {Name: "guard relay: deaf", Device: "guard relay", Kind: "dead relay"},
	stuckOpen: {Name: "main contactor: stuck open", Device: "main contactor", Kind: "contact", Tells: true},
	weld:      {Name: "main contactor: welded", Device: "main contactor", Kind: "contact"},
	lamp:      {Name: "lamp: out", Device: "lamp", Kind: "lamp", Tells: true},
	spoilt:    {Name: "main fuse: spoilt", Device: "main fuse", Kind: "fuse"},
}

var toyGuards = []Guard{
	{Name: "guard relay: high", Layer: "disconnect high", Device: "guard relay", Sensor: "guard relay", Logic: "guard relay", Switch: "main contactor"},
	{Name: "cell meter: high alarm", Layer: "alarm high", Device: "cell meter"},
}

// toyRun plays the made-up rig; extra is a second contactor in the charge line.
func toyRun(extra bool, scene int, faults []int) Outcome {
	has := func(f int) bool { return slices.Contains(faults, f) }
	o := Outcome{Outcome: None, HarmAt: -1, AlarmAt: -1, ReactS: -1, MarginMV: 100, HighV: 4.1, LowV: 3.6, Scene: toyScenes[scene].Name}
	for k, f := range faults {
		o.Silent = o.Silent || !toyFaults[f].Tells
		if k == 0 {
			o.Fault = toyFaults[f].Name
		} else {
			o.Second = toyFaults[f].Name
		}
	}
	switch {
	case scene == 0 && has(stuck) && (has(deaf) || has(weld)) && !has(stuckOpen) && !extra:
		o.Outcome, o.Harm, o.MarginMV, o.HarmAt = Harm, "cell high", -50, 600
	case scene == 0 && has(stuck):
		o.Outcome, o.Acts = Caught, []Act{{At: 60, Layer: "disconnect high", Device: "guard relay"}}
	case scene == 1 && has(spoilt):
		o.Outcome, o.Harm, o.MarginMV, o.HarmAt = Harm, "cell low", -10, 60
	case has(stuckOpen):
		o.Outcome, o.LostPower = Nuisance, true
	}
	return o
}

var toyScenes = []Scene{{Name: "full sun", Sun: true}, {Name: "night"}}

func toy(t testing.TB, o Options) *study {
	t.Helper()
	r := readRig(t, "curlew")
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	p := &play{rig: r, fit: res, scenes: toyScenes, faults: toyFaults, guards: toyGuards}
	s := newStudy(p, o)
	s.run = func(scene int, faults ...int) (Outcome, error) { return toyRun(false, scene, faults), nil }
	s.ready = func(r *rig.Rig) (*play, runner, error) {
		extra := len(r.Protection.Contactors) > 1 && r.Protection.Contactors[1].Opens != "loads"
		there := &play{rig: r, fit: res, scenes: toyScenes, faults: append([]Fault{{Name: "new relay: deaf"}}, toyFaults...)}
		return there, func(scene int, faults ...int) (Outcome, error) {
			own := []int{}
			for _, f := range faults {
				if f > 0 {
					own = append(own, f-1)
				}
			}
			return toyRun(extra, scene, own), nil
		}, nil
	}
	return s
}

func drilled(t testing.TB, o Options) (*study, *Result) {
	t.Helper()
	s := toy(t, o)
	if err := s.drill(context.Background()); err != nil {
		t.Fatal(err)
	}
	return s, s.out
}

func TestPairsOfTheToy(t *testing.T) {
	_, res := drilled(t, Options{Workers: 2})
	// Six faults make fifteen pairs; a contactor cannot be open and welded.
	if res.Pairs.Faults != 14 || res.Pairs.Runs != 28 {
		t.Errorf("%d pairs in %d runs", res.Pairs.Faults, res.Pairs.Runs)
	}
	// Stuck with deaf or welded in the sun; the spoilt fuse with each of five at night.
	if res.Pairs.Harm != 7 {
		t.Errorf("%d runs of pairs reach harm", res.Pairs.Harm)
	}
	if res.Tolerant {
		t.Error("the spoilt fuse alone is enough")
	}
	if len(res.Pairs.Groups) != 1 {
		t.Fatalf("groups %+v", res.Pairs.Groups)
	}
	g := res.Pairs.Groups[0]
	want := [][2]string{{"roof solar: stuck on", "guard relay: deaf"}, {"roof solar: stuck on", "main contactor: welded"}}
	if !reflect.DeepEqual(g.Pairs, want) || !g.Silent || g.Harm != "cell high" || !strings.Contains(g.Cause, "guard relay, main contactor") {
		t.Errorf("group %+v", g)
	}
}

func TestUncoveredOfTheToy(t *testing.T) {
	_, res := drilled(t, Options{})
	var got [][]string
	for _, u := range res.Uncovered {
		got = append(got, u.Faults)
	}
	want := [][]string{{"main fuse: spoilt"}, {"roof solar: stuck on", "guard relay: deaf"}, {"roof solar: stuck on", "main contactor: welded"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("uncovered %v", got)
	}
	if res.Uncovered[0].Addition != "" {
		t.Errorf("nothing covers the fuse, not %q", res.Uncovered[0].Addition)
	}
	first := "the output of the cell meter wired to a charge contactor of its own"
	if a := res.Uncovered[1].Addition; a != first {
		t.Errorf("the least addition is %q", a)
	}
	if a := res.Additions[0]; a.Covers != 2 || a.Of != 3 || a.Creates != 0 || a.Loss != 0 || len(a.Causes) != 1 {
		t.Errorf("%+v", a)
	}
}

func TestFindingsOfTheToy(t *testing.T) {
	_, res := drilled(t, Options{})
	worked.Check(t, res.Findings)
	var got []string
	for _, f := range res.Findings {
		got = append(got, string(f.Severity)+" "+f.ID+" "+f.Where)
		if f.Found == "" || f.Because == "" || f.Mend == "" {
			t.Errorf("not whole: %+v", f)
		}
	}
	want := []string{
		"stop no-single-fault-tolerance protection",
		"stop single-fault-cell-low protection.fuses.main fuse",
		"care uncovered-pairs-cell-high protection.relays.guard relay",
		"care silent-fault protection.relays.guard relay",
		"care silent-fault protection.contactors.main contactor",
		"note needless-loss protection",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("findings:\n%s", strings.Join(got, "\n"))
	}
}

// Which worker plays what makes no difference.
func TestWorkersMakeNoDifference(t *testing.T) {
	_, one := drilled(t, Options{Workers: 1})
	_, many := drilled(t, Options{Workers: 7})
	if !reflect.DeepEqual(one, many) {
		t.Error("the results differ")
	}
}

// Progress counts every run; the total never falls but at the end, when what was
// only expected is known.
func TestProgressCountsEveryRun(t *testing.T) {
	last, total := 0, 0
	drilled(t, Options{Workers: 3, Progress: func(done, of int) {
		if done != last+1 && done != of || of < done || of < total && done != of {
			t.Errorf("%d of %d after %d of %d", done, of, last, total)
		}
		last, total = done, of
	}})
	if last != total || last == 0 {
		t.Errorf("ended at %d of %d", last, total)
	}
}

func TestCancelledAndFailed(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	runs := 0
	s := toy(t, Options{Workers: 1, Progress: func(done, _ int) {
		runs = done
		if done == 20 {
			cancel()
		}
	}})
	if err := s.drill(ctx); !errors.Is(err, context.Canceled) || runs != 20 {
		t.Errorf("%v after %d runs", err, runs)
	}
	broken := errors.New("broken")
	s = toy(t, Options{})
	s.run = func(scene int, faults ...int) (Outcome, error) {
		if len(faults) == 2 {
			return Outcome{}, broken
		}
		return toyRun(false, scene, faults), nil
	}
	if err := s.drill(context.Background()); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
}

// Pairs that share no layer go under the kind of fault most of them have.
func TestByKind(t *testing.T) {
	s := toy(t, Options{})
	by := map[groupKey][]harmRun{}
	s.byKind(by, "current", []harmRun{{a: stuck, b: weld}, {a: deaf, b: spoilt}, {a: deaf, b: stuckOpen}, {a: weld, b: lamp}})
	if n := len(by[groupKey{harm: "current", kind: "contact"}]); n != 3 || len(by) != 2 {
		t.Errorf("%v", by)
	}
	if n := len(by[groupKey{harm: "current", kind: "dead relay"}]); n != 1 {
		t.Errorf("%v", by)
	}
}

// An addition is made on a copy.
func TestAdditionsLeaveTheRigAlone(t *testing.T) {
	for _, name := range examples.Names() {
		r := readRig(t, name)
		res, err := fit.Run(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range catalogue {
			a := e.on(r, res)
			if a == nil {
				continue
			}
			changed, err := a.with(r)
			if err != nil {
				t.Errorf("%s, %s: %v", name, a.name, err)
				continue
			}
			if reflect.DeepEqual(changed, r) {
				t.Errorf("%s: %s changes nothing", name, a.name)
			}
			if _, err := fit.Run(changed); err != nil {
				t.Errorf("%s, %s: %v", name, a.name, err)
			}
			if a.about == "" || len(a.against) == 0 {
				t.Errorf("%s: %+v", name, a)
			}
		}
		if !reflect.DeepEqual(r, readRig(t, name)) {
			t.Errorf("%s was changed", name)
		}
	}
}
