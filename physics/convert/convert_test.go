package convert

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	refuse := func(f *figure.Figure, in, says string) { figuretest.Refuse(t, f, in, says) }
	refuse(InverterPower, "dc-power=1 W", "needs voltage")
	refuse(InverterPower, "dc-power=1 W|voltage=0 V|paco=1 W|pdco=1 W|vdco=1 V|pso=0 W", "voltage must be more")
	refuse(InverterPartLoad, "dc-power=-1 W|rated=1 W", "dc-power must not")
	refuse(InverterPartLoad, "dc-power=1 W|rated=1 W|efficiency=120 %", "efficiency must be")
	refuse(WeightedEfficiency, "efficiencies=1,1", "expected 6")
	refuse(WeightedEfficiency, "efficiencies=1,a", "efficiencies")
	refuse(WeightedEfficiency, "efficiencies=1|weights=mine", "expected california")
	refuse(ConverterDraw, "load=-1 W", "load must not")
	refuse(ConverterDraw, "load=0 W", "nothing is drawn")
	refuse(ControllerOutput, "array-power=1 W|voltage=0 V", "voltage must be")
	refuse(ControllerOutput, "array-power=1 W|voltage=12 V|efficiency=0 %", "efficiency must be")
}

// Out reverses In, and a data sheet's efficiency comes back.
func TestLossReverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Loss{rapid.Float64Range(0, 60).Draw(t, "idle"), rapid.Float64Range(0, 0.3).Draw(t, "share"), rapid.Float64Range(0, 1e-4).Draw(t, "square")}
		out := rapid.Float64Range(0, 5000).Draw(t, "out")
		if got := l.Out(l.In(out)); math.Abs(got-out) > 1e-9*(1+out) {
			t.Fatalf("%g W comes back as %g W", out, got)
		}
		if l.Out(l.Idle*0.99) != 0 {
			t.Fatal("something comes out of less than the idle draw")
		}
		load := rapid.Float64Range(100, 5000).Draw(t, "load")
		efficiency := rapid.Float64Range(0.5, 0.9).Draw(t, "efficiency")
		if sheet := Through(load/100, load, efficiency); math.Abs(load/sheet.In(load)-efficiency) > 1e-12 {
			t.Fatalf("efficiency %g became %g", efficiency, load/sheet.In(load))
		}
	})
}

// Whatever the limits, what the panels could give is passed on, lost or unused.
func TestControllerBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Controller{Efficiency: rapid.Float64Range(0.5, 1).Draw(t, "efficiency"), Idle: rapid.Float64Range(0, 5).Draw(t, "idle"),
			Current: rapid.Float64Range(0, 100).Draw(t, "current"), Power: rapid.Float64Range(0, 3000).Draw(t, "power")}
		array, volts := rapid.Float64Range(0, 5000).Draw(t, "array"), rapid.Float64Range(10, 60).Draw(t, "volts")
		got := c.Charge(array, volts)
		if sum := got.Current*volts + got.Lost + got.Unused; math.Abs(sum-array) > 1e-9*(1+array) {
			t.Fatalf("%g W became %g W", array, sum)
		}
		if c.Current > 0 && got.Current > c.Current*(1+1e-12) {
			t.Fatalf("%g A over the limit of %g A", got.Current, c.Current)
		}
	})
}

// More dc never gives less ac below the rating, and part load never more than
// goes in.
func TestPartLoadRises(t *testing.T) {
	before := 0.0
	for dc := 0.0; dc <= 150; dc += 0.5 {
		got := PartLoad(dc, 100, 0.95)
		if got < before || got > dc || got > 95 {
			t.Fatalf("%g W gives %g W after %g W", dc, got, before)
		}
		before = got
	}
	near.Equal(t, "beyond the rating", before, 95, 1e-12)
}

func TestInputCurrentRefuses(t *testing.T) {
	figuretest.Refuse(t, InputCurrent, "power=100 W|voltage=0 V", "outside the range")
	figuretest.Refuse(t, InputCurrent, "power=100 W|voltage=12 V|efficiency=120 %", "outside the range")
}
