package measure_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/figuretest"
	_ "ampstead/internal/fixedseed"
	"ampstead/internal/near"
	"ampstead/physics/measure"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, measure.Figures()) }

func TestRefusals(t *testing.T) {
	figuretest.Refuse(t, measure.StepResistance, "before=3.7 V|after=3.6 V|step=0 A", "zero")
	figuretest.Refuse(t, measure.CapacityPair, "charge=30 Ah|change=0", "above zero")
	figuretest.Refuse(t, measure.CapacityTLS, "changes=0.4,0.5|charges=20 Ah|change-error=0.02|charge-error=0.1 Ah", "2 changes but 1 charges")
	figuretest.Refuse(t, measure.CapacityTLS, "changes=0.4|charges=-20 Ah|change-error=0.02|charge-error=0.1 Ah", "no pair")
	figuretest.Refuse(t, measure.CapacityTLS, "changes=0.4|charges=20 Ah|change-error=0|charge-error=0.1 Ah", "above zero")
}

// The closed form must be the minimum of chi squared, and its error the one of
// the curvature there.
func TestCapacityIsTheMinimum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := rapid.Float64Range(1, 300).Draw(t, "capacity")
		sy := rapid.Float64Range(0.001, 0.01).Draw(t, "sigma") * truth
		p := measure.Pairs{K: rapid.Float64Range(0.1, 3).Draw(t, "k") / truth}
		for range rapid.IntRange(1, 20).Draw(t, "pairs") {
			x := rapid.Float64Range(0.2, 0.9).Draw(t, "x")
			p.Add(x, truth*x*(1+rapid.Float64Range(-0.03, 0.03).Draw(t, "off")), sy)
		}
		q, sigma, chi2, err := p.Capacity()
		if err != nil {
			t.Fatal(err)
		}
		at := func(q float64) float64 { return (p.C3 - 2*q*p.C2 + q*q*p.C1) / (1 + p.K*p.K*q*q) }
		h := q * 1e-3
		if up, down := at(q+h), at(q-h); up < chi2-1e-9 || down < chi2-1e-9 {
			t.Errorf("chi squared %g at %g Ah is not the least: %g, %g beside it", chi2, q, down, up)
		}
		numeric := math.Sqrt(2 / ((at(q+h) - 2*at(q) + at(q-h)) / (h * h)))
		if math.Abs(sigma-numeric) > 0.01*numeric {
			t.Errorf("error %g, by differences %g", sigma, numeric)
		}
	})
}

func TestForgettingWidensTheError(t *testing.T) {
	p := measure.Pairs{K: 0.2}
	p.Add(0.5, 25, 0.1)
	q, sigma, _, _ := p.Capacity()
	p.Forget(0.25)
	again, wider, _, _ := p.Capacity()
	near.Equal(t, "capacity", again, q, 1e-9)
	near.Equal(t, "error", wider, 2*sigma, 1e-9)
}

func TestOnePairAsTheFigureSays(t *testing.T) {
	p := measure.Pairs{K: 0.02 / 0.1}
	p.Add(0.5, 25, 0.1)
	q, sigma, _, err := p.Capacity()
	if err != nil {
		t.Fatal(err)
	}
	want, wantErr := measure.CapacityOf(25, 0.1, 0.5, 0.02)
	near.Equal(t, "capacity", q, want, 1e-9)
	near.Relative(t, "error", sigma, wantErr, 0.01)
}
