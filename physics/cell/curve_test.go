package cell

import (
	"math"
	"testing"

	"ampstead/internal/near"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"pgregory.net/rapid"
)

// anyCurve draws a curve of 2 to 60 points with steps of very different size.
func anyCurve(t *rapid.T) Curve {
	n := rapid.IntRange(1, 60).Draw(t, "pieces")
	step := rapid.Float64Range(1e-4, 1)
	soc, volt := []float64{0}, []float64{rapid.Float64Range(0.5, 3).Draw(t, "start")}
	for k := range n {
		soc = append(soc, soc[k]+step.Draw(t, "width"))
		volt = append(volt, volt[k]+step.Draw(t, "rise"))
	}
	for k := range soc {
		soc[k] /= soc[n]
	}
	soc[n] = 1
	c, err := NewCurve(soc, volt)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return c
}

func TestCurveReadsBackwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, soc := anyCurve(t), rapid.Float64Range(0, 1).Draw(t, "soc")
		if got := c.SoC(c.Voltage(soc)); math.Abs(got-soc) > 1e-9 {
			t.Fatalf("soc %g comes back as %g", soc, got)
		}
	})
}

func TestCurveRisesAndStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		a, b := rapid.Float64Range(-1, 2).Draw(t, "a"), rapid.Float64Range(-1, 2).Draw(t, "b")
		a, b = min(a, b), max(a, b)
		low, high := c.Span()
		if c.Voltage(a) > c.Voltage(b)+1e-12 {
			t.Fatalf("%g V at %g above %g V at %g", c.Voltage(a), a, c.Voltage(b), b)
		}
		if v := c.Voltage(a); v < low || v > high+1e-12 {
			t.Fatalf("%g V lies outside %g to %g", v, low, high)
		}
		if c.Slope(a) <= 0 {
			t.Fatalf("slope %g at %g", c.Slope(a), a)
		}
	})
}

func TestEnergyAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		draw := rapid.Float64Range(-0.2, 1.2)
		a, b, m := draw.Draw(t, "a"), draw.Draw(t, "b"), draw.Draw(t, "m")
		if d := c.Energy(a, m) + c.Energy(m, b) - c.Energy(a, b); math.Abs(d) > 1e-9 {
			t.Fatalf("parts differ from the whole by %g", d)
		}
		low, high := c.Span()
		if e := c.Energy(0, 1); e < low || e > high {
			t.Fatalf("mean voltage %g outside %g to %g", e, low, high)
		}
	})
}

func TestEnergyIsTheIntegralOfVoltage(t *testing.T) {
	for _, name := range Names() {
		c := find(t, name)
		const n = 200000
		sum := 0.0
		for k := range n {
			sum += c.Curve.Voltage(0.1+0.8*(float64(k)+0.5)/n) * 0.8 / n
		}
		near.Equal(t, name, c.Curve.Energy(0.1, 0.9), sum, 1e-8)
	}
}

func TestCurveMeetsItsPoints(t *testing.T) {
	for _, name := range Names() {
		c := find(t, name)
		soc, volt := c.Curve.Points()
		for k := range soc {
			near.Equal(t, name+" voltage", c.Curve.Voltage(soc[k]), volt[k], 1e-12)
			near.Equal(t, name+" charge", c.Curve.SoC(volt[k]), soc[k], 1e-12)
		}
	}
}

func TestCurveHoldsItsEndsAndPassesNoNumberOn(t *testing.T) {
	c := find(t, "nca").Curve
	near.Equal(t, "below", c.Voltage(-3), 2.7, 1e-12)
	near.Equal(t, "above", c.Voltage(7), 4.2, 1e-12)
	near.Equal(t, "low voltage", c.SoC(1), 0, 0)
	near.Equal(t, "high voltage", c.SoC(math.Inf(1)), 1, 0)
	near.Equal(t, "beyond both ends", c.Energy(-1, 2), c.Energy(0, 1), 0)
	if !math.IsNaN(c.Voltage(math.NaN())) || !math.IsNaN(c.SoC(math.NaN())) {
		t.Error("no number became a number")
	}
}

func TestNewCurveRefuses(t *testing.T) {
	for name, bad := range map[string][2][]float64{
		"one point":        {{0}, {3}},
		"unequal lengths":  {{0, 1}, {3}},
		"starts late":      {{0.1, 1}, {3, 4}},
		"ends early":       {{0, 0.9}, {3, 4}},
		"charge repeats":   {{0, 0.5, 0.5, 1}, {3, 3.1, 3.2, 4}},
		"voltage repeats":  {{0, 0.5, 1}, {3, 3, 4}},
		"voltage falls":    {{0, 0.5, 1}, {3, 3.5, 3.4}},
		"no number":        {{0, 0.5, 1}, {3, math.NaN(), 4}},
		"infinite voltage": {{0, 1}, {3, math.Inf(1)}},
	} {
		if _, err := NewCurve(bad[0], bad[1]); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func TestNewCurveKeepsItsOwnPoints(t *testing.T) {
	soc, volt := []float64{0, 1}, []float64{3, 4}
	c, err := NewCurve(soc, volt)
	if err != nil {
		t.Fatal(err)
	}
	volt[1] = 9
	near.Equal(t, "top", c.Voltage(1), 4, 0)
}

func TestLookupsDoNotAllocate(t *testing.T) {
	c := find(t, "lfp")
	sink := 0.0
	if n := testing.AllocsPerRun(100, func() {
		sink += c.Curve.Voltage(0.4) + c.Curve.SoC(3.3) + c.Curve.Slope(0.6) + c.Curve.Energy(0.2, 0.9) +
			c.ChargeRate(12) + c.ResistanceFactor(3)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func find(t testing.TB, name string) *Cell {
	t.Helper()
	c, err := Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func BenchmarkVoltage(b *testing.B) {
	c, soc, sum := find(b, "lfp").Curve, 0.0, 0.0
	for b.Loop() {
		soc += 0.00137
		if soc > 1 {
			soc = 0
		}
		sum += c.Voltage(soc)
	}
	_ = sum
}

func BenchmarkSoC(b *testing.B) {
	c, volt, sum := find(b, "lfp").Curve, 2.1, 0.0
	for b.Loop() {
		volt += 0.00137
		if volt > 3.59 {
			volt = 2.1
		}
		sum += c.SoC(volt)
	}
	_ = sum
}

func BenchmarkEnergy(b *testing.B) {
	c, sum := find(b, "nmc532").Curve, 0.0
	for b.Loop() {
		sum += c.Energy(0.13, 0.87)
	}
	_ = sum
}

func BenchmarkLookup(b *testing.B) {
	for b.Loop() {
		if _, err := Lookup("nmc532"); err != nil {
			b.Fatal(err)
		}
	}
}
