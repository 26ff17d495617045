package travel

import (
	"context"
	"math"
	"testing"

	"ampstead/fit"
	q "ampstead/quantity"
)

// A year on prepared ground is the year of Run, to the last bit.
func TestGroundIsTheYearOfRun(t *testing.T) {
	r := open(t, "dipper")
	g, err := NewGround(r, Options{Seed: 5})
	if err != nil {
		t.Fatal(err)
	}
	turned := copyRig(r)
	for i := range turned.Route {
		turned.Route[i].Tilt = quantityOf[q.Angle](30)
	}
	for _, r := range []struct {
		name string
		rig  int
	}{{"as it stands", 0}, {"tilted", 1}} {
		x := copyRig(open(t, "dipper"))
		if r.rig == 1 {
			x = turned
		}
		want, err := Run(context.Background(), x, Options{Years: 1, Seed: 5})
		if err != nil {
			t.Fatal(err)
		}
		res, err := fit.Run(x)
		if err != nil {
			t.Fatal(err)
		}
		got, err := g.Year(context.Background(), x, res)
		if err != nil {
			t.Fatal(err)
		}
		if got.Year.Energies != want.Year.Energies || got.Year.SoCMin != want.Year.SoCMin {
			t.Errorf("%s: the year differs:\ngot  %+v\nwant %+v", r.name, got.Year.Energies, want.Year.Energies)
		}
		if len(got.Stress()) != len(want.Stress()) || got.Stress()[0].SoC != want.Stress()[0].SoC {
			t.Errorf("%s: the stress differs", r.name)
		}
	}
}

func TestGroundRefusesAnotherRoute(t *testing.T) {
	g, err := NewGround(open(t, "dipper"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	other := open(t, "curlew")
	res, err := fit.Run(other)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := g.Year(context.Background(), other, res); err == nil {
		t.Error("a rig on another route was run")
	}
	moved := copyRig(open(t, "dipper"))
	moved.Route[0].Latitude = quantityOf[q.Latitude](12)
	if res, err = fit.Run(moved); err != nil {
		t.Fatal(err)
	}
	if _, err := g.Year(context.Background(), moved, res); err == nil {
		t.Error("a rig at another place was run")
	}
}

// BenchmarkGroundYear is one more rig on ground that is prepared, fit included.
func BenchmarkGroundYear(b *testing.B) {
	r := open(b, "curlew")
	g, err := NewGround(r, Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		res, err := fit.Run(r)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := g.Year(context.Background(), r, res); err != nil {
			b.Fatal(err)
		}
	}
}

// A brisk year finds what a year by the minute finds, nearly.
func TestBriskYearIsClose(t *testing.T) {
	for _, name := range []string{"curlew", "dipper"} {
		r := open(t, name)
		g, err := NewGround(r, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, share := range []float64{0.6, 0.8, 1, 1.5} {
			x := copyRig(r)
			for i := range x.Charge {
				for j := range x.Charge[i].Panels {
					p := &x.Charge[i].Panels[j]
					p.Power = quantityOf[q.Power](share * float64(*p.Power))
				}
			}
			res, err := fit.Run(x)
			if err != nil {
				t.Fatal(err)
			}
			want, err := g.Year(context.Background(), x, res)
			if err != nil {
				t.Fatal(err)
			}
			got, err := g.BriskYear(context.Background(), x, res)
			if err != nil {
				t.Fatal(err)
			}
			a, b := got.Year, want.Year
			if math.Abs(a.UnservedH-b.UnservedH) > max(30, 0.1*b.UnservedH) {
				t.Errorf("%s, %g of its panels: %.1f hours short, by the minute %.1f", name, share, a.UnservedH, b.UnservedH)
			}
			if math.Abs(a.SunCaught-b.SunCaught) > 0.005*b.SunCaught || math.Abs(a.SoCMin-b.SoCMin) > 0.02 || a.Error > 1e-6 {
				t.Errorf("%s, %g of its panels: sun %.0f Wh, least charge %.3f, gap %g; by the minute %.0f Wh, %.3f",
					name, share, a.SunCaught, a.SoCMin, a.Error, b.SunCaught, b.SoCMin)
			}
		}
	}
}
