package keep

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"ampstead/fit"
	_ "ampstead/internal/fixedseed"
	"ampstead/internal/near"
	"ampstead/physics/bank"
	"ampstead/rig"
	"ampstead/store"

	"pgregory.net/rapid"
)

// Readings may come in any order.
func TestOrderChangesNothing(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{leakMA: map[int]float64{2: 4}, every: 14, visits: 30, errorV: 0.003, stepV: 0.001, counter: true, seed: 8}
	list := l.readings(t, f)
	done := []store.Done{{ID: "a", At: start.AddDate(0, 3, 0), What: "balanced"}, {ID: "b", At: start.AddDate(0, 6, 0), What: "balanced"}}
	want := text(t, r, f, list, l.meters(), done)
	rapid.Check(t, func(rt *rapid.T) {
		mixed := rapid.Permutation(list).Draw(rt, "readings")
		if got := text(t, r, f, mixed, l.meters(), rapid.Permutation(done).Draw(rt, "done")); got != want {
			rt.Fatal("another order, another result")
		}
	})
}

func text(t *testing.T, r *rig.Rig, f *fit.Result, list []store.Reading, meters []store.Meter, done []store.Done) string {
	t.Helper()
	res, err := Run(context.Background(), r, f, list, meters, done, Options{Now: start.AddDate(2, 0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	got, err := json.Marshal(res)
	if err != nil {
		t.Fatal(err)
	}
	return string(got)
}

// straightRig is a bank whose curve is a straight line, so that voltage and
// charge go together.
func straightRig(t *testing.T, ah float64) (*rig.Rig, *fit.Result) {
	t.Helper()
	text := fmt.Sprintf("about: {name: line}\nbank:\n  cell: own\n  own: {like: nmc532, curve: [{soc: 0 %%, voltage: 3.0 V}, {soc: 100 %%, voltage: 4.2 V}]}\n  series: 6\n  cell_capacity: %g Ah\n", ah)
	file, err := rig.Parse("rig.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return file.Rig, res
}

// What all groups share drops out: a meter that reads all of them wrong alike,
// another state of charge at each visit.
func TestSharedVoltageChangesNoDrift(t *testing.T) {
	r, f := straightRig(t, 100)
	l := logOf{leakMA: map[int]float64{1: 3}, every: 14, visits: 20, errorV: 0.002, seed: 5}
	list := l.readings(t, f)
	want := drifting(r, f, list, l.meters()).res.Groups
	rapid.Check(t, func(rt *rapid.T) {
		moved := slices.Clone(list)
		for k := range moved {
			by := rapid.Float64Range(-0.1, 0.1).Draw(rt, "shared")
			moved[k].Groups = slices.Clone(list[k].Groups)
			for g, v := range list[k].Groups {
				x := *v + by
				moved[k].Groups[g] = &x
			}
		}
		for k, g := range drifting(r, f, moved, l.meters()).res.Groups {
			near.Equal(t, "drift", g.DriftMA, want[k].DriftMA, 1e-6)
		}
	})
}

// Twice the capacity, twice the offsets and drifts.
func TestCapacityScales(t *testing.T) {
	r, f := straightRig(t, 100)
	l := logOf{leakMA: map[int]float64{1: 3}, every: 14, visits: 20, errorV: 0.002, seed: 5}
	list := l.readings(t, f)
	one := drifting(r, f, list, l.meters()).res.Groups
	r2, f2 := straightRig(t, 200)
	for k, g := range drifting(r2, f2, list, l.meters()).res.Groups {
		near.Relative(t, "drift", g.DriftMA, 2*one[k].DriftMA, 1e-9)
		near.Relative(t, "error", g.DriftErr, 2*one[k].DriftErr, 1e-9)
		near.Equal(t, "offset", g.OffsetAh, 2*one[k].OffsetAh, 1e-9)
	}
}

// The stated errors are honest: of many logs, the truth lies within one sigma
// about two times in three, and within two nineteen times in twenty.
func TestErrorsCoverTheTruth(t *testing.T) {
	r, f := example(t, "curlew")
	n, one, two := 0, 0, 0
	for seed := range uint64(12) {
		l := logOf{leakMA: map[int]float64{0: 1, 3: 5, 7: 2}, every: 14, visits: 16, errorV: 0.004, stepV: 0.001, seed: seed}
		for k, g := range drifting(r, f, l.readings(t, f), l.meters()).res.Groups {
			z := math.Abs(g.DriftMA-l.leakMA[k]) / g.DriftErr
			n++
			if z < 1 {
				one++
			}
			if z < 2 {
				two++
			}
		}
	}
	near.Equal(t, "within one sigma", float64(one)/float64(n), 0.683, 0.12)
	if share := float64(two) / float64(n); share < 0.90 {
		t.Errorf("%.2f within two sigma", share)
	}
}

// A slip of the fingers and a reading under load do not move a drift much.
func TestASlipMovesLittle(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{leakMA: map[int]float64{3: 5}, every: 14, visits: 26, errorV: 0.001, stepV: 0.001, seed: 3}
	list := l.readings(t, f)
	*list[12].Groups[5] -= 0.18 // 3.86 typed as 3.68
	s := drifting(r, f, list, l.meters())
	near.Equal(t, "leak", s.res.Groups[3].DriftMA, 5, 0.1)
	near.Equal(t, "the group with the slip", s.res.Groups[5].DriftMA, 0, 0.1)
	if s.res.Groups[5].Drifts {
		t.Error("a slip made a drift")
	}
}

// A jump is told from a slope.
func TestJumpIsNoSlope(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{every: 14, visits: 40, errorV: 0.002, stepV: 0.001, seed: 6, full: true, at: func(b *bank.Bank, k int) {
		if k == 25 {
			soc := slices.Clone(b.SoCs())
			soc[2] -= 6 / b.CapacityAh(2)
			b.Reset(soc, 20)
		}
	}}
	g := drifting(r, f, l.readings(t, f), l.meters()).res.Groups[2]
	if g.Step == nil || g.Drifts {
		t.Fatalf("%+v", g)
	}
	near.Equal(t, "jump", g.Step.Ah, -6, 4*g.Step.Err)
	if want := start.AddDate(0, 0, 25*14); day(want) != g.Step.At {
		t.Errorf("at %s, want %s", g.Step.At, day(want))
	}
}

// A cell that fails open takes capacity: the group then falls behind with the
// charge taken, not with time.
func TestLostCapacityIsTold(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{every: 14, visits: 50, errorV: 0.001, stepV: 0.001, seed: 6, at: func(b *bank.Bank, k int) {
		if k == 25 {
			b.SetCapacity(4, b.CapacityAh(4)/2)
		}
	}}
	s := drifting(r, f, l.readings(t, f), l.meters())
	g := s.res.Groups[4]
	if g.Step == nil {
		t.Fatalf("%+v", g)
	}
	near.Relative(t, "capacity lost", g.Step.Ah, -f.Cell.Capacity/2, 0.1)
	if g.Step.Like != "it lost about one of its 2 cells in parallel: a link opened, or a cell failed open" {
		t.Error(g.Step.Like)
	}
}

// Levelling shifts the reckoning and does not hide the drift, whether its
// amp-hours were written down or not.
func TestBalancingShiftsTheReckoning(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{leakMA: map[int]float64{3: 4}, every: 14, visits: 30, errorV: 0.001, stepV: 0.001, seed: 9, at: func(b *bank.Bank, k int) {
		if k == 15 {
			soc := slices.Clone(b.SoCs())
			soc[3] += 15 / b.CapacityAh(3)
			b.Reset(soc, 20)
		}
	}}
	list := l.readings(t, f)
	ah := make([]float64, f.Cell.Series)
	ah[3] = 15
	for name, stated := range map[string][]float64{"stated": ah, "not stated": nil} {
		s := &study{rig: r, fit: f, plant: plantOf(r, f), meter: meterOf(r), scaled: 1, res: &Result{},
			done: []store.Done{{ID: "x", At: list[14].Taken.Add(time.Hour), What: "balanced", Ah: stated}}}
		s.drift(list, l.meters())
		g := s.res.Groups[3]
		near.Equal(t, name, g.DriftMA, 4, 0.15)
		near.Equal(t, name+", offset", g.OffsetAh, 15-29*14*24*0.004, 1.5)
		if !g.Drifts || g.Step != nil {
			t.Errorf("%s: %+v", name, g)
		}
	}
}

// An exchanged group begins anew.
func TestExchangedGroupBeginsAnew(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{leakMA: map[int]float64{3: 6}, every: 14, visits: 30, errorV: 0.001, stepV: 0.001, seed: 9, at: func(b *bank.Bank, k int) {
		if k == 18 {
			b.SetLeak(3, 0)
		}
	}}
	list := l.readings(t, f)
	ah := make([]float64, f.Cell.Series)
	ah[3] = 1
	s := &study{rig: r, fit: f, plant: plantOf(r, f), meter: meterOf(r), scaled: 1, res: &Result{},
		done: []store.Done{{ID: "x", At: list[17].Taken.Add(time.Hour), What: "group exchanged", Ah: ah}}}
	s.drift(list, l.meters())
	if g := s.res.Groups[3]; g.Drifts || math.Abs(g.DriftMA) > 0.3 {
		t.Errorf("%+v", g)
	}
}

// Whatever is typed, Run neither fails nor gives numbers that are none.
func FuzzRun(f *testing.F) {
	f.Add(uint64(1), uint8(5), 3.7, 1.0, 0.5)
	f.Add(uint64(2), uint8(40), math.NaN(), math.Inf(1), -1.0)
	f.Add(uint64(3), uint8(12), 3700.0, 0.0, 1e300)
	f.Add(uint64(4), uint8(3), 2.9, 0.001, 24.0)
	r, fitted := example(f, "dipper")
	f.Fuzz(func(t *testing.T, seed uint64, n uint8, volt, amps, rest float64) {
		random := rand.New(rand.NewPCG(seed, 1))
		odd := func(v float64) *float64 {
			switch random.IntN(6) {
			case 0:
				return nil
			case 1:
				v *= random.NormFloat64()
			case 2:
				v = 3.3 + random.Float64()
			}
			return &v
		}
		var list []store.Reading
		for k := range int(n) {
			x := store.Reading{ID: fmt.Sprint(k), Taken: start.Add(time.Duration(random.IntN(1<<20)) * time.Minute), BankV: odd(volt * 7), Amps: odd(amps), RestH: odd(rest), CountAh: odd(amps * 10), TempsC: []float64{volt, amps}, Meter: "m"}
			for range random.IntN(9) {
				x.Groups = append(x.Groups, odd(volt))
			}
			if before := list; k > 0 {
				Question(r, before, x)
			}
			list = append(list, x)
		}
		done := []store.Done{{ID: "b", At: start.Add(time.Duration(random.IntN(1<<20)) * time.Minute), What: "balanced", Ah: []float64{amps}},
			{ID: "c", At: start.AddDate(0, 5, 0), What: "capacity test", Value: odd(rest)}}
		res, err := Run(context.Background(), r, fitted, list, []store.Meter{{Name: "m", StepV: math.Abs(amps), ErrorV: rest}}, done, Options{Now: start.AddDate(1, 0, 0)})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := json.Marshal(res); err != nil { // refuses numbers that are none
			t.Fatal(err)
		}
		if res.Next.Date <= day(start.AddDate(1, 0, 0)) {
			t.Fatalf("next visit on %s", res.Next.Date)
		}
	})
}
