package balance

import (
	"math"
	"math/rand/v2"
	"testing"

	"ampstead/internal/figuretest"
	"ampstead/internal/near"
	"ampstead/physics/cell"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	figuretest.Refuse(t, LeakFromRest, "cell=lfp|voltage-before=3.30|voltage-after=3.29|days=30|capacity=100", "flat")
	figuretest.Refuse(t, LeakFromRest, "cell=nmc811|voltage-before=3.75|voltage-after=3.74|days=0|capacity=50", "above 0")
	figuretest.Refuse(t, LeakFromRest, "cell=nmc811|voltage-before=4.75|voltage-after=3.74|days=3|capacity=50", "voltage")
	figuretest.Refuse(t, Bleed, "cell=lfp|capacity=100|voltages=3.30,3.29", "flat")
	figuretest.Refuse(t, Bleed, "cell=nmc532|capacity=100|voltages=4.05,high", "voltages")
	figuretest.Refuse(t, Bleed, "cell=nmc532|capacity=0|voltages=4.05", "above 0")
}

// The stated error is the scatter that a noisy meter gives.
func TestLeakErrorIsTheScatter(t *testing.T) {
	c, err := cell.Lookup("nmc811")
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	const n, meter = 4000, 0.0005
	sum, square := 0.0, 0.0
	for range n {
		leak := LeakA(c.Curve, 3.7509+meter*r.NormFloat64(), 3.7409+meter*r.NormFloat64(), 720, 50)
		sum += leak
		square += leak * leak
	}
	scatter := math.Sqrt(square/n - sum*sum/n/n)
	near.Relative(t, "error", LeakErrorA(c.Curve, 3.7509, 3.7409, 720, 50, meter), scatter, 0.1)
}
