package ageing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
)

func model(t testing.TB, name string) *Model {
	t.Helper()
	m, err := Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func anyModel(t *rapid.T) *Model {
	m, err := Lookup(rapid.SampledFrom(Names()).Draw(t, "model"))
	if err != nil {
		t.Fatal(err)
	}
	return m.Scaled(rapid.Float64Range(0.3, 3).Draw(t, "multiplier"))
}

func anyStress(t *rapid.T) Stress {
	s := Stress{
		Days: rapid.Float64Range(0, 1000).Draw(t, "days"), SoC: rapid.Float64Range(0, 1).Draw(t, "soc"),
		TempC: rapid.Float64Range(-20, 55).Draw(t, "temperature"), Depth: rapid.Float64Range(0.02, 1).Draw(t, "depth"),
		Throughput: rapid.Float64Range(0, 500).Draw(t, "throughput"), CRate: rapid.Float64Range(0.02, 3).Draw(t, "rate"),
	}
	if rapid.Bool().Draw(t, "counted") {
		s.Cycles = []Cycle{{Range: s.Depth, Mean: s.SoC, Count: s.Throughput / s.Depth}, {Range: 0.02, Mean: 0.5, Count: 7}}
	}
	return s
}

// part is a share of a stress.
func part(s Stress, share float64) Stress {
	s.Days *= share
	s.Throughput *= share
	cycles := s.Cycles
	s.Cycles = nil
	for _, c := range cycles {
		c.Count *= share
		s.Cycles = append(s.Cycles, c)
	}
	return s
}

func TestSplittingAConstantStressChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, s := anyModel(t), anyStress(t)
		once, often := m.From(Past{Capacity: 0.9}), m.From(Past{Capacity: 0.9})
		once.Add(s)
		n := rapid.IntRange(2, 400).Draw(t, "steps")
		for range n {
			often.Add(part(s, 1/float64(n)))
		}
		a, _ := once.Resistance()
		b, _ := often.Resistance()
		if math.Abs(once.Capacity()-often.Capacity()) > 1e-9 || math.Abs(a-b) > 1e-9 {
			t.Fatalf("capacity %.12g and %.12g, resistance %.12g and %.12g", once.Capacity(), often.Capacity(), a, b)
		}
	})
}

// TestAmountsAreVirtualTime compares with the round trip of the literature: the
// time at which the new stress alone would have cost as much, then on from there.
func TestAmountsAreVirtualTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Life{model: library()[0]}
		lost := 0.0
		for range rapid.IntRange(1, 8).Draw(t, "stresses") {
			s := anyStress(t)
			s.Cycles, s.Throughput = nil, 0
			s.CellV = rapid.Float64Range(3.3, 4.2).Draw(t, "volts")
			k := (7.543*s.CellV - 23.75) * 1e6 * math.Exp(-6976/(max(s.TempC, 25)+273.15))
			virtual := math.Pow(lost/k, 1/0.75)
			lost = k * math.Pow(virtual+s.Days, 0.75)
			l.Add(s)
		}
		if calendar, _ := l.Lost(); math.Abs(calendar-lost) > 1e-9 {
			t.Fatalf("lost %.12g, by virtual time %.12g", calendar, lost)
		}
	})
}

func TestALifeOnlyGetsOlder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyModel(t)
		l := m.Start()
		for range 5 {
			before, was := l.Capacity(), l
			l.Add(anyStress(t))
			if after := l.Capacity(); !(after <= before && after >= 0) {
				t.Fatalf("capacity from %g to %g", before, after)
			}
			if was.Capacity() != before {
				t.Fatal("a copy grew old too")
			}
		}
	})
}

func TestWarmerFullerDeeperAndMoreAgesMore(t *testing.T) {
	base := Stress{Days: 365, SoC: 0.5, TempC: 30, Depth: 0.4, Throughput: 100, CRate: 0.5}
	worse := map[string]func(s *Stress){
		"warmth":     func(s *Stress) { s.TempC = 45 },
		"charge":     func(s *Stress) { s.SoC = 0.8 },
		"throughput": func(s *Stress) { s.Throughput = 400 },
		"depth":      func(s *Stress) { s.Depth = 1 },
	}
	blind := map[string]bool{ // no part in the equation, or the lesser life of lead-acid
		"wang2011 charge": true, "wang2011 depth": true, "wang2014 charge": true, "wang2014 throughput": true, "wang2014 depth": true,
		"lead-acid-flooded charge": true, "lead-acid-agm charge": true, "lead-acid-flooded depth": true, "lead-acid-agm depth": true,
	}
	for _, name := range Names() {
		for what, change := range worse {
			s := base
			change(&s)
			a, b := left(model(t, name), base), left(model(t, name), s)
			if blind[name+" "+what] {
				if name[:4] == "wang" && a != b {
					t.Errorf("%s answers to %s", name, what)
				}
				continue
			}
			if !(b < a) {
				t.Errorf("%s: with more %s %g is left, with less %g", name, what, b, a)
			}
		}
	}
}

func TestColdIsHeldNotCarriedOn(t *testing.T) {
	floor := map[string]float64{"schmalstieg": 25, "schmalstieg-nca": 25, "naumann": 0, "wang2011": 15, "wang2014": 10, "xu": 15,
		"lead-acid-flooded": 25, "lead-acid-agm": 25}
	for _, name := range Names() {
		at := func(tempC float64) float64 {
			return left(model(t, name), Stress{Days: 365, SoC: 0.6, TempC: tempC, Depth: 0.5, Throughput: 20, CRate: 0.5})
		}
		near.Equal(t, name+" at its floor and 20 K below", at(floor[name]-20), at(floor[name]), 0)
		if !(at(floor[name]+10) < at(floor[name])) {
			t.Errorf("%s: ten kelvin more take nothing", name)
		}
	}
}

func TestScaledMultipliesTheLoss(t *testing.T) {
	s := Stress{Days: 800, SoC: 0.6, TempC: 30, Depth: 0.4, Throughput: 200, CRate: 0.3}
	for _, name := range Names() {
		m := model(t, name)
		near.Equal(t, name, 1-left(m.Scaled(0.5).Scaled(3), s), 1.5*(1-left(m, s)), 1e-12)
	}
	l := model(t, "schmalstieg").Scaled(2).Start()
	plain := model(t, "schmalstieg").Start()
	l.Add(s)
	plain.Add(s)
	got, _ := l.Resistance()
	want, _ := plain.Resistance()
	near.Equal(t, "resistance", got-1, 2*(want-1), 1e-12)
}

func TestLossStopsAtNothingLeft(t *testing.T) {
	near.Equal(t, "a thousand years at 50 °C", left(model(t, "schmalstieg"), Stress{Days: 365250, SoC: 1, TempC: 50}), 0, 0)
}

func TestDepthAndThroughputComeFromCountedCycles(t *testing.T) {
	s := Stress{Cycles: []Cycle{{Range: 0.5, Count: 3}, {Range: 0.1, Count: 5}}}.whole()
	near.Equal(t, "throughput", s.Throughput, 2, 1e-12)
	near.Equal(t, "depth", s.Depth, (3*0.25+5*0.01)/2, 1e-12)
	near.Equal(t, "depth left out", Stress{Throughput: 1}.whole().Depth, 1, 0)
}

// BenchmarkTwentyYears is twenty years by the day, voltages given.
func BenchmarkTwentyYears(b *testing.B) {
	for _, name := range []string{"schmalstieg", "naumann", "xu"} {
		m := model(b, name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				l := m.Start()
				for day := range 7305 {
					l.Add(Stress{Days: 1, SoC: 0.6, CellV: 3.75, RmsV: 3.76, TempC: 20 + float64(day%20), Depth: 0.3, Throughput: 0.3, CRate: 0.1})
				}
				if l.Capacity() > 1 {
					b.Fatal("grew")
				}
			}
		})
	}
}
