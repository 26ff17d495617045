package keep

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/physics/bank"
	"ampstead/rig"
	"ampstead/store"
)

// logOf is a logbook made by running a bank whose truth is known and reading it
// with a meter that errs.
type logOf struct {
	leakMA  map[int]float64 // by group, 0 first
	ahead   map[int]float64 // Ah by which a group starts fuller
	ah      map[int]float64 // a group's own capacity where it differs
	begins  int             // visit at which the leak sets in
	every   float64         // days
	visits  int
	errorV  float64
	stepV   float64
	restH   float64
	full    bool // always read at the same charge
	counter bool // a charge counter is read too
	seed    uint64
	at      func(b *bank.Bank, visit int) // something done before a visit
}

var start = time.Date(2026, 9, 12, 9, 0, 0, 0, time.UTC)

func example(t testing.TB, name string) (*rig.Rig, *fit.Result) {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return file.Rig, res
}

func (l logOf) bank(t testing.TB, f *fit.Result) *bank.Bank {
	n := f.Cell.Series
	s := bank.Spec{Cell: f.Kind, Series: n, CapacityAh: f.Cell.Capacity, ResistanceOhm: f.Cell.Ohm, MassKg: 50, LossWPerK: 3, SoC: 0.7, TempC: 20,
		GroupCapacityAh: make([]float64, n), GroupSoC: make([]float64, n)}
	for k := range n {
		s.GroupCapacityAh[k], s.GroupSoC[k] = s.CapacityAh, s.SoC
		if ah, ok := l.ah[k]; ok {
			s.GroupCapacityAh[k] = ah
		}
		s.GroupSoC[k] += l.ahead[k] / s.GroupCapacityAh[k]
	}
	b, err := bank.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// readings runs the log: between visits the bank is cycled, before each it rests
// a day.
func (l logOf) readings(t testing.TB, f *fit.Result) []store.Reading {
	b, r := l.bank(t, f), rand.New(rand.NewPCG(l.seed, 7))
	if l.restH == 0 {
		l.restH = 24
	}
	count := 0.0
	run := func(amps, hours float64) {
		for left := hours; left > 0; left -= 3 {
			h := math.Min(3, left)
			b.Step(amps, 3600*h, 20, 0)
			count += amps * h
		}
	}
	var list []store.Reading
	for k := range l.visits {
		if k == l.begins {
			for g, ma := range l.leakMA {
				b.SetLeak(g, ma/1000)
			}
		}
		if l.at != nil {
			l.at(b, k)
		}
		target := 0.55
		if !l.full {
			target = 0.3 + 0.5*r.Float64()
		}
		want := (target - b.SoCs()[0]) * b.CapacityAh(0)
		run(want/8, 8)
		run(0, l.every*24-8)
		list = append(list, l.read(b, r, k, count))
	}
	return list
}

func (l logOf) read(b *bank.Bank, r *rand.Rand, k int, count float64) store.Reading {
	at := start.Add(time.Duration(float64(k) * l.every * 24 * float64(time.Hour)))
	x := store.Reading{ID: fmt.Sprintf("r%04d", k), Version: 1, Taken: at, Entered: at, Meter: "bench", RestH: new(float64), Amps: new(float64)}
	*x.RestH = l.restH
	for _, v := range b.Voltages() {
		v += l.errorV * r.NormFloat64()
		if l.stepV > 0 {
			v = math.Round(v/l.stepV) * l.stepV
		}
		x.Groups = append(x.Groups, &v)
	}
	if l.counter {
		x.CountAh = &count
	}
	return x
}

func (l logOf) meters() []store.Meter {
	return []store.Meter{{Name: "bench", StepV: l.stepV, ErrorV: l.errorV}}
}

func (l logOf) run(t testing.TB, name string, done ...store.Done) *Result {
	t.Helper()
	r, f := example(t, name)
	list := l.readings(t, f)
	res, err := Run(context.Background(), r, f, list, l.meters(), done, Options{Now: list[len(list)-1].Taken})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// drifting runs only the first half of Run, for many logs.
func drifting(r *rig.Rig, f *fit.Result, list []store.Reading, meters []store.Meter) *study {
	s := &study{rig: r, fit: f, plant: plantOf(r, f), meter: meterOf(r), scaled: 1, res: &Result{}}
	s.drift(list, meters)
	return s
}

func BenchmarkTenYears(b *testing.B) {
	r, f := example(b, "curlew")
	l := logOf{leakMA: map[int]float64{3: 3}, begins: 200, every: 14, visits: 260, errorV: 0.003, stepV: 0.001, counter: true, seed: 4}
	list := l.readings(b, f)
	b.ResetTimer()
	for range b.N {
		if _, err := Run(context.Background(), r, f, list, l.meters(), nil, Options{Now: list[len(list)-1].Taken}); err != nil {
			b.Fatal(err)
		}
	}
}
