package convert

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	"ampstead/internal/near"
)

func TestEveryCheckPasses(t *testing.T) {
	for _, f := range Figures() {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s: %s (%s): got %v, want %v within %g", f.Name, o.Note, o.Source, o.Got, o.Expected, o.Tolerance)
			}
		}
	}
}

func TestOutputsAreDeclared(t *testing.T) {
	for _, f := range Figures() {
		use, err := f.Read(f.Checks[0].In)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for _, o := range f.Outputs {
			if _, ok := use.Out[o.Key]; !ok || len(use.Out) != len(f.Outputs) {
				t.Errorf("%s gives %v, declares %s", f.Name, use.Out, o.Key)
			}
		}
	}
}

func TestFiguresRefuse(t *testing.T) {
	tests := []struct {
		f        *figure.Figure
		in, want string
	}{
		{InverterPower, "dc-power=1 W", "needs voltage"},
		{InverterPower, "dc-power=1 W|voltage=0 V|paco=1 W|pdco=1 W|vdco=1 V|pso=0 W", "voltage must be more"},
		{InverterPartLoad, "dc-power=-1 W|rated=1 W", "dc-power must not"},
		{InverterPartLoad, "dc-power=1 W|rated=1 W|efficiency=120 %", "efficiency must be"},
		{WeightedEfficiency, "efficiencies=1,1", "expected 6"},
		{WeightedEfficiency, "efficiencies=1,a", "efficiencies"},
		{WeightedEfficiency, "efficiencies=1|weights=mine", "expected california"},
		{ConverterDraw, "load=-1 W", "load must not"},
		{ConverterDraw, "load=0 W", "nothing is drawn"},
		{ControllerOutput, "array-power=1 W|voltage=0 V", "voltage must be"},
		{ControllerOutput, "array-power=1 W|voltage=12 V|efficiency=0 %", "efficiency must be"},
	}
	for _, tt := range tests {
		use, err := tt.f.Read(strings.Split(tt.in, "|"))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s %s: got %v, %v; want an error with %q", tt.f.Name, tt.in, use.Out, err, tt.want)
		}
	}
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
