package bank

import (
	"errors"
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuseNonsense(t *testing.T) {
	for _, args := range [][]string{{"area=0 m2", "thickness=1 mm"}, {"area=1 m2", "thickness=-1 mm"}} {
		if _, err := HeatLoss.Read(args); !errors.Is(err, figure.ErrRange) {
			t.Errorf("%v: %v", args, err)
		}
	}
	if _, err := Relaxation.Read([]string{"resistance=1 mΩ", "time-constant=0 s", "current=1 A", "time=1 s"}); !errors.Is(err, figure.ErrRange) {
		t.Error(err)
	}
}

// The bank's own stepping is the figure's equation.
func TestBranchIsTheFigure(t *testing.T) {
	r := branch{tau: 30, j: 12, slow: 2e-3}
	r.prepare(7)
	got := r.slow * (r.j*r.keep - 40*r.turn)
	near.Relative(t, "voltage over the branch", got, SlowVolts(12*2e-3, -40, 2e-3, 30, 7), 1e-12)
}
