package prove

import (
	"math"
	"math/rand/v2"
	"testing"

	"ampstead/internal/near"
)

// Two weeks of rest with hourly readings tell leaks of milliamperes.
func TestGroupLeaksOfAKnownModule(t *testing.T) {
	kind := lookup(t, "nmc532")
	r := rand.New(rand.NewPCG(5, 5))
	var leaks score
	for trial := range uint64(6) {
		spec, _ := module(kind, r)
		spec.LeakA = []float64{0, 0, 0.002 * r.Float64(), 0, 0.001, 0}
		for k := range spec.GroupSoC {
			spec.GroupSoC[k] -= 0.2
		}
		b := newBench(t, spec, trial)
		b.run(-15, 600, 10, nil)
		b.run(0, 14*24*3600, 3600, nil)
		res := b.judged(t, Options{Cell: "nmc532", RatedAh: 60})
		for k, g := range res.Groups {
			if g.LeakMA == nil {
				t.Fatal("no leak is told")
			}
			leaks.add(*g.LeakMA, g.LeakErrMA, 1000*spec.LeakA[k])
		}
		if g := res.Groups[4]; *g.LeakMA < 2*g.LeakErrMA || g.LeakBound {
			t.Errorf("trial %d: a leak of 1 mA is told as %.2f ± %.2f mA", trial, *g.LeakMA, g.LeakErrMA)
		}
		if last := res.Rests[len(res.Rests)-1]; last.Bound && last.LeakMA == 0 {
			t.Errorf("trial %d: %+v", trial, last)
		}
	}
	leaks.check(t, "leak, mA")
}

// On the flat part of an iron-phosphate curve a fall of voltage is no current.
func TestNoLeakOnAFlatCurve(t *testing.T) {
	kind := lookup(t, "lfp")
	spec, _ := module(kind, rand.New(rand.NewPCG(5, 6)))
	for k := range spec.GroupSoC {
		spec.GroupSoC[k] -= 0.4
	}
	b := newBench(t, spec, 1)
	b.run(-15, 600, 10, nil)
	b.run(0, 2*24*3600, 600, nil)
	res := b.judged(t, Options{Cell: "lfp", RatedAh: 60})
	for _, g := range res.Groups {
		if g.LeakMA != nil || g.CapacityAh != 0 || g.OffsetAh != 0 || g.Unknown == "" {
			t.Errorf("told on a flat curve: %+v", g)
		}
	}
	for _, r := range res.Rests {
		if !r.Bound || r.LeakMA != 0 {
			t.Errorf("rest %+v", r)
		}
	}
}

// restOf makes a rest that falls by steady (V/h) and relaxes by a form.
func restOf(hours, steady float64, relax func(h float64) float64) []sample {
	r := rand.New(rand.NewPCG(9, 9))
	var points []sample
	for h := 0.0; h <= hours; h += hours / 600 {
		v := 3.9 + steady*h + relax(h) + 0.0002*r.NormFloat64()
		points = append(points, sample{t: 3600 * h, v: math.Round(v*1000) / 1000})
	}
	return points
}

func TestRelaxationIsTakenOff(t *testing.T) {
	volts := func(p *sample) float64 { return p.v }
	for _, row := range []struct {
		name    string
		hours   float64
		steady  float64
		relax   func(h float64) float64
		settled bool
		tol     float64
	}{
		{"nothing but a leak", 240, -50e-6, func(float64) float64 { return 0 }, true, 2e-6},
		{"quick relaxation, long over", 240, -50e-6, func(h float64) float64 { return 0.01 * math.Exp(-h/5) }, true, 4e-6},
		{"slow relaxation, not over", 48, -50e-6, func(h float64) float64 { return -0.004 * math.Log1p(h/0.1) }, false, 80e-6},
		{"no leak at all", 48, 0, func(h float64) float64 { return -0.004 * math.Log1p(h/0.1) }, false, 80e-6},
	} {
		d := decayOf(restOf(row.hours, row.steady, row.relax), volts)
		if d.settled() != row.settled {
			t.Errorf("%s: settled %v: %+v", row.name, d.settled(), d)
		}
		near.Equal(t, row.name, d.steady, row.steady, row.tol)
	}
}

// Samples that crowd at the end of a thinned rest do not bend its slope.
func TestThinningDoesNotBendTheSlope(t *testing.T) {
	var all, thin []sample
	for k := range 601 {
		h := 0.08 * float64(k)
		p := sample{t: 3600 * h, v: 3.9 - 0.004*math.Log1p(h/0.1)}
		all = append(all, p)
		if k%20 == 0 || k > 580 {
			thin = append(thin, p)
		}
	}
	volts := func(p *sample) float64 { return p.v }
	near.Relative(t, "slope", decayOf(thin, volts).endSlope, decayOf(all, volts).endSlope, 0.02)
}
