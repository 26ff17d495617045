package tolerance_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/physics/cell"
	"ampstead/physics/tolerance"
)

func TestFiguresReproduceTheirChecks(t *testing.T) {
	for _, f := range tolerance.Figures() {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s, %s: got %v, want %v", f.Name, o.Note, o.Got, o.Expected)
			}
		}
	}
}

func TestFiguresRefuseNonsense(t *testing.T) {
	for _, c := range []struct {
		figure string
		in     []string
	}{
		{"layer-band", []string{"setting=49.8 V", "series=0"}},
		{"layer-band", []string{"setting=49.8 V", "spread=-1 mV"}},
		{"layer-band", []string{"setting=49.8 V", "side=left"}},
		{"delay-drift", []string{"current=10 A", "delay=1 s", "capacity=0 Ah", "slope=1 V"}},
		{"weak-group", []string{"cell=nmc532", "voltage=3.6 V", "share=0 %"}},
		{"weak-group", []string{"cell=nmc532", "voltage=3.6 V", "share=101 %"}},
		{"weak-group", []string{"cell=cheese", "voltage=3.6 V", "share=90 %"}},
		{"worst-case", []string{"terms=1,two"}},
		{"root-sum-square", []string{"terms="}},
	} {
		for _, f := range tolerance.Figures() {
			if f.Name != c.figure {
				continue
			}
			if use, err := f.Read(c.in); err == nil {
				t.Errorf("%s %v = %v, want an error", c.figure, c.in, use.Out)
			}
		}
	}
}

// A relay of 0.5 % set to 37.2 V over 12 groups with 20 mV spread and 30 mV of
// drift, worked by hand: mean 3.1 V, 15.5 mV of its own.
func TestBandOnTheLowSide(t *testing.T) {
	b := tolerance.BandOf(tolerance.Threshold{Setting: 37.2, Tolerance: 0.005, Series: 12, Spread: 0.020, Drift: 0.030, Drop: 0.12})
	near.Equal(t, "low", b.Low, 3.0345, 1e-9)
	near.Equal(t, "high", b.High, 3.1255, 1e-9)
	near.Equal(t, "beyond", b.Beyond, b.Low, 0)
	near.Equal(t, "inner", b.Inner, b.High, 0)
}

func threshold(t *rapid.T) tolerance.Threshold {
	draw := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
	series := float64(rapid.IntRange(1, 20).Draw(t, "series"))
	return tolerance.Threshold{Setting: series * rapid.Float64Range(2, 4.5).Draw(t, "cell"), Series: series,
		Tolerance: draw("tolerance", 0.03), Error: draw("error", 0.02), Spread: draw("spread", 0.1),
		Drop: draw("drop", 1), Drift: draw("drift", 0.1), High: rapid.Bool().Draw(t, "high")}
}

func TestLikelyLiesInsideWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := tolerance.BandOf(threshold(t))
		const hair = 1e-12
		if b.Middle-b.Half < b.Low-hair || b.Middle+b.Half > b.High+hair {
			t.Fatalf("likely %g ± %g is outside %g..%g", b.Middle, b.Half, b.Low, b.High)
		}
	})
}

func TestFarthestEndsAtTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := threshold(t)
		limit := rapid.Float64Range(2, 4.5).Draw(t, "limit")
		th.Setting = tolerance.Farthest(th, limit)
		if got := tolerance.BandOf(th).Beyond; math.Abs(got-limit) > 1e-9 {
			t.Fatalf("band ends at %g, want %g", got, limit)
		}
	})
}

func TestWeakestAndMeanAreInverse(t *testing.T) {
	c, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(0.8, 1).Draw(t, "share")
		weakest := rapid.Float64Range(3.0, 4.1).Draw(t, "weakest")
		mean := tolerance.MeanAtWeakest(c.Curve, share, weakest)
		if mean < weakest-1e-9 {
			t.Fatalf("mean %g below the weakest %g", mean, weakest)
		}
		if got := tolerance.WeakestAtMean(c.Curve, share, mean); math.Abs(got-weakest) > 1e-6 {
			t.Fatalf("weakest %g comes back as %g", weakest, got)
		}
	})
}
