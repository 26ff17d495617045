package bank

import (
	"math"
	"testing"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"pgregory.net/rapid"
)

func anySpec(t *rapid.T, s Spec) Spec {
	list := func(name string, low, high float64) []float64 {
		return rapid.SliceOfN(rapid.Float64Range(low, high), s.Series, s.Series).Draw(t, name)
	}
	s.Series = rapid.IntRange(1, 16).Draw(t, "series")
	s.GroupCapacityAh = list("capacities", 2, 400)
	s.GroupResistanceOhm = list("resistances", 1e-4, 1e-2)
	s.GroupTauS = list("time constants", 1, 2000)
	s.LeakA = list("leaks", -0.2, 2)
	s.GroupSoC = list("charge", -0.05, 1.05)
	s.MassKg = rapid.Float64Range(5, 200).Draw(t, "mass")
	s.LossWPerK = rapid.Float64Range(0, 5).Draw(t, "loss")
	s.NeighbourWPerK = rapid.Float64Range(0, 20).Draw(t, "conduction")
	s.TempC = rapid.Float64Range(-20, 45).Draw(t, "temperature")
	return s
}

// Whatever the groups, currents and step lengths: energy in is energy kept,
// made into heat and leaked, and heat made is heat kept and lost.
func TestBooksClose(t *testing.T) {
	base := make14(t)
	rapid.Check(t, func(rt *rapid.T) {
		b, err := New(anySpec(rt, base))
		if err != nil {
			rt.Fatal(err)
		}
		least := b.CapacityAh(0)
		for i := range b.Groups() {
			least = min(least, b.CapacityAh(i))
		}
		for range rapid.IntRange(1, 40).Draw(rt, "steps") {
			dt := math.Pow(10, rapid.Float64Range(-2, 3.556).Draw(rt, "log step"))
			amps := rapid.Float64Range(-1, 1).Draw(rt, "rate") * least * min(1, 600/dt)
			b.Step(amps, dt, rapid.Float64Range(-20, 40).Draw(rt, "ambient"), rapid.Float64Range(0, 200).Draw(rt, "heater"))
		}
		if k := b.Books(); !(k.Gap() < 1e-6 && k.HeatGap() < 1e-6) {
			rt.Fatalf("the books fail to close by %g and %g: %+v", k.Gap(), k.HeatGap(), k)
		}
	})
}

// The energy a step books is the integral of the terminal voltage, taken here by
// Simpson's rule over steps of every shorter length from the same state.
func TestTerminalEnergyIsTheIntegral(t *testing.T) {
	s := isothermal(make14(t))
	s.GroupTauS = []float64{20, 20, 20, 20, 20, 20, 20, 60, 60, 60, 60, 60, 60, 60}
	s.LeakA = make([]float64, 14)
	s.LeakA[5] = 2
	for _, amps := range []float64{-80, 55} {
		b := build(t, s)
		b.Step(-amps/2, 40, 25, 0)
		b.OpenBooks()
		const dt, n = 1800.0, 20000
		sum := 0.0
		for k := range n + 1 {
			v, _ := b.Try(amps, max(1e-9, dt*float64(k)/n))
			sum += v * [3]float64{2, 4, 1}[weight(k, n)]
		}
		b.Step(amps, dt, 25, 0)
		near.Relative(t, "energy", b.Books().TerminalWh, amps*sum*dt/n/3/3600, 1e-7)
		near.Relative(t, "mean voltage", b.MeanVolts(), sum/n/3, 1e-7)
	}
}

func weight(k, n int) int {
	if k == 0 || k == n {
		return 2
	}
	return k % 2
}

// Heat in a resistance of the slow branch, by the same rule on its current.
func TestSlowHeatIsTheIntegral(t *testing.T) {
	r := branch{tau: 50, j: -30, slow: 1}
	const dt, amps, n = 130.0, 44.0, 2000
	r.prepare(dt)
	sum, square := 0.0, 0.0
	for k := range n + 1 {
		j := amps + (r.j-amps)*math.Exp(-dt*float64(k)/n/r.tau)
		w := [3]float64{2, 4, 1}[weight(k, n)] / n / 3
		sum += w * j
		square += w * j * j
	}
	b := Bank{branches: []branch{r}}
	volts, heat := b.relax(amps)
	near.Relative(t, "mean current", volts, sum, 1e-9)
	near.Relative(t, "mean square", heat, square, 1e-9)
}

// At constant current one long step is many short ones.
func TestStepLengthAtConstantTemperature(t *testing.T) {
	long, short := build(t, isothermal(make14(t))), build(t, isothermal(make14(t)))
	long.Step(45, 3600, 25, 0)
	for range 3600 {
		short.Step(45, 1, 25, 0)
	}
	near.Equal(t, "charge", long.SoCs()[0], short.SoCs()[0], 1e-12)
	near.Equal(t, "voltage", long.Volts(), short.Volts(), 1e-9)
	near.Relative(t, "energy", long.Books().TerminalWh, short.Books().TerminalWh, 1e-9)
}

// Halving a minute's step over a cold night of use: voltage within 1 mV a group,
// temperature within 0.01 K, energy within 0.01 %.
func TestHalvingTheStep(t *testing.T) {
	run := func(dt float64) *Bank {
		s := make14(t)
		s.TempC, s.SoC = 2, 0.8
		b := build(t, s)
		for at := 0.0; at < 6*3600; at += dt {
			amps := -25.0
			if math.Mod(at, 7200) < 1200 {
				amps = 40
			}
			b.Step(amps, dt, -6, 60)
		}
		return b
	}
	whole, half := run(60), run(30)
	near.Equal(t, "voltage", whole.Volts(), half.Volts(), 0.014)
	near.Equal(t, "temperature", whole.Temperatures()[6], half.Temperatures()[6], 0.01)
	near.Relative(t, "energy", whole.Books().TerminalWh, half.Books().TerminalWh, 1e-4)
}
