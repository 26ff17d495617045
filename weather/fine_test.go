package weather

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/physics/sun"
)

// hour returns one hour of weather as a mean.
func hour(global, diffuse float64) *Hours {
	h := New(1)
	h.GHI[0], h.DHI[0] = global, diffuse
	return h
}

// Whatever the hour and the sun, global and diffuse light keep their means, beam
// stays within that of space and no light is negative.
func TestFineKeepsMeans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		global := rapid.Float64Range(0, 1100).Draw(t, "global")
		diffuse := global * rapid.Float64Range(0, 1).Draw(t, "share")
		steps := rapid.IntRange(1, 120).Draw(t, "steps")
		noon := rapid.Float64Range(-0.1, 1).Draw(t, "up")
		slope := rapid.Float64Range(-0.2, 0.2).Draw(t, "slope")
		up := make([]float64, steps)
		for j := range up {
			up[j] = min(1, noon+slope*(float64(j)+0.5)/float64(steps))
		}
		out := make([]sun.Irradiance, steps)
		NewFine(hour(global, diffuse), rapid.Uint64().Draw(t, "seed")).Hour(0, up, 1361, out)
		var g, d float64
		for j, o := range out {
			g, d = g+o.Global/float64(steps), d+o.Diffuse/float64(steps)
			if o.Beam < 0 || o.Diffuse < 0 || o.Beam > 1361.001 {
				t.Fatalf("step %d: %+v", j, o)
			}
			if math.Abs(o.Global-o.Diffuse-o.Beam*max(0, up[j])) > 1e-6 {
				t.Fatalf("step %d does not add up: %+v", j, o)
			}
		}
		if math.Abs(g-global) > 1e-6*(1+global) {
			t.Fatalf("global mean %g, want %g", g, global)
		}
		if d < diffuse-1e-6*(1+diffuse) {
			t.Fatalf("diffuse mean %g, less than %g", d, diffuse)
		}
	})
}

func steadyUp(up float64) []float64 { return slices.Repeat([]float64{up}, 60) }

// Under broken cloud the beam is that of a clear sky part of the time, as much
// as the hour's beam says; a clear or dull hour is steady.
func TestFineSpells(t *testing.T) {
	out := make([]sun.Irradiance, 60)
	sunny := map[float64]float64{}
	for _, beam := range []float64{10, 400, 860} {
		h := hour(beam*0.7+100, 100)
		total := 0.0
		for seed := range uint64(200) {
			NewFine(h, seed).Hour(0, steadyUp(0.7), 1361, out)
			for _, o := range out {
				if o.Beam > max(420, 0.9*beam) {
					total++
				}
			}
		}
		sunny[beam] = total / 200 / 60
	}
	near.Equal(t, "dull", sunny[10], 0, 0)
	near.Equal(t, "broken cloud", sunny[400], 400.0/880, 0.06)
	near.Equal(t, "clear", sunny[860], 1, 0)
}

func TestFineRepeats(t *testing.T) {
	a, b := make([]sun.Irradiance, 60), make([]sun.Irradiance, 60)
	h := hour(400, 150)
	f := NewFine(h, 7)
	f.Hour(0, steadyUp(0.6), 1361, a)
	f.Hour(0, steadyUp(0.6), 1361, b)
	if !slices.Equal(a, b) {
		t.Error("the same hour differs")
	}
	NewFine(h, 8).Hour(0, steadyUp(0.6), 1361, b)
	if slices.Equal(a, b) {
		t.Error("another seed is the same")
	}
	f.Memory = 0
	f.Hour(0, steadyUp(0.6), 1361, b)
	near.Equal(t, "steady beam", b[3].Beam, 250/0.6, 1e-9)
}

// Samples are joined by straight lines at their own moment.
func TestFineBetweenSamples(t *testing.T) {
	h := New(3)
	h.Sampled, h.LightAt = true, 0.25
	copy(h.DNI, []float64{0, 100, 200})
	copy(h.DHI, []float64{50, 60, 70})
	out := make([]sun.Irradiance, 4)
	NewFine(h, 1).Hour(1, []float64{0.5, 0.5, 0.5, -0.1}, 1361, out)
	near.Equal(t, "beam at 0.125 h", out[0].Beam, 87.5, 1e-9)
	near.Equal(t, "beam at 0.625 h", out[2].Beam, 137.5, 1e-9)
	near.Equal(t, "diffuse at 0.875 h", out[3].Diffuse, 66.25, 1e-9)
	near.Equal(t, "no beam after sunset", out[3].Beam, 0, 0)
	near.Equal(t, "global", out[0].Global, 87.5*0.5+out[0].Diffuse, 1e-9)
}

func BenchmarkFineHour(b *testing.B) {
	f := NewFine(hour(400, 150), 7)
	up, out := steadyUp(0.6), make([]sun.Irradiance, 60)
	b.ReportAllocs()
	for b.Loop() {
		f.Hour(0, up, 1361, out)
	}
}
