package protect

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/internal/shared"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	for _, tt := range []struct {
		f        *figure.Figure
		in, want string
	}{
		{FuseSize, "continuous=1000 A", "largest is 1200"},
		{FuseSize, "continuous=-1 A", "less than zero"},
		{FuseInterrupt, "class=wire|voltage=12 V", "expected blade"},
		{FuseInterrupt, "class=blade|voltage=0 V", "voltage must be more"},
		{PreChargeFigure, "capacitance=0 F|voltage=48 V", "capacitance must be more"},
		{PreChargeFigure, "capacitance=1 mF|voltage=48 V|fraction=100 %", "fraction"},
		{PreChargeTimeFigure, "capacitance=1 mF|voltage=48 V|resistance=22 Ω|load=1 A", "switch it off"},
		{ClosingCurrent, "voltage=48 V|loop=0 Ω", "loop must be more"},
		{ClosingCurrent, "voltage=48 V|loop=1 mΩ|fraction=100 %", "fraction"},
		{PadDensity, "power=90 W|area=0 cm2", "area must be more"},
	} {
		figuretest.Refuse(t, tt.f, tt.in, tt.want)
	}
}

// The list is that of NFPA 70, 240.6(A), with the fuse-only sizes.
func TestSizesAgainstTheTable(t *testing.T) {
	want := map[float64]bool{}
	for _, r := range shared.Rows(t, "reference/fuse-standard-sizes.csv") {
		if v, err := strconv.ParseFloat(r["ampere"], 64); err == nil && r["set"][:3] == "NEC" && v != 601 {
			want[v] = true
		}
	}
	for k, s := range Sizes {
		if !want[s] {
			t.Errorf("%g A is not in the table", s)
		}
		if k > 0 && s <= Sizes[k-1] {
			t.Errorf("%g A after %g A", s, Sizes[k-1])
		}
	}
	if len(want) != len(Sizes) {
		t.Errorf("%d sizes, the table has %d", len(Sizes), len(want))
	}
}

// No class is credited with more than its row in the reference table; where two
// rows differ the lower governs.
func TestClassesNeverExceedTheTable(t *testing.T) {
	names := map[string]string{"Class T (300 V body)": "class T", "Terminal fuse (MRBF)": "terminal", "ANL": "strip", "ANL (cautious)": "strip",
		"AMI / MIDI": "midi", "MIDI (cautious)": "midi", "MEGA 32 V": "mega", "MEGA 58 V": "mega", "Blade ATO/mini/maxi": "blade"}
	seen := map[string]bool{}
	for _, r := range shared.Rows(t, "reference/fuse-interrupting.csv") {
		c, ok := ClassNamed(names[r["class"]])
		if !ok {
			continue
		}
		seen[c.Name] = true
		at, err := strconv.ParseFloat(r["at_V_dc"], 64)
		near.Equal(t, r["class"], errFloat(err), 0, 0)
		most, err := strconv.ParseFloat(r["interrupting_A_dc"], 64)
		near.Equal(t, r["class"], errFloat(err), 0, 0)
		if got := c.At(at); got > most {
			t.Errorf("%s at %g V: %g A, the table has %g A", c.Name, at, got, most)
		}
	}
	if len(seen) != len(Classes) {
		t.Errorf("the table speaks of %d of %d classes", len(seen), len(Classes))
	}
}

func errFloat(err error) float64 {
	if err != nil {
		return math.NaN()
	}
	return 0
}

func TestNextSizeAndProposal(t *testing.T) {
	for _, tt := range []struct{ at, want float64 }{{133, 150}, {150, 150}, {150.01, 175}, {0.4, 1}, {1200, 1200}} {
		got, err := NextSize(tt.at)
		if err != nil || got != tt.want {
			t.Errorf("%g A: %g, %v; want %g", tt.at, got, err, tt.want)
		}
	}
	if _, err := NextSize(1200.1); !errors.Is(err, figure.ErrRange) {
		t.Errorf("got %v", err)
	}
	for _, tt := range []struct {
		rating, volts, amperes float64
		want                   string
	}{{30, 14, 900, "blade"}, {100, 29.4, 1500, "midi"}, {150, 29.4, 2600, "strip"}, {150, 29.4, 4900, "terminal"}, {150, 29.4, 8200, "class T"}, {150, 50.4, 1900, "terminal"}, {5, 50.4, 19000, "class T"}} {
		c, err := Propose(tt.rating, tt.volts, tt.amperes)
		if err != nil || c.Name != tt.want {
			t.Errorf("%+v: %s, %v", tt, c.Name, err)
		}
	}
	if _, err := Propose(150, 50, 21000); !errors.Is(err, figure.ErrRange) {
		t.Errorf("21 kA: %v", err)
	}
}

// The resistor found for a time takes that time, and what a class interrupts
// never rises with the voltage.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		farads := rapid.Float64Range(1e-5, 0.5).Draw(t, "farads")
		volts := rapid.Float64Range(10, 900).Draw(t, "volts")
		seconds := rapid.Float64Range(0.01, 20).Draw(t, "seconds")
		fraction := rapid.Float64Range(0.5, 0.999).Draw(t, "fraction")
		c := PreCharge(farads, volts, seconds, fraction)
		back := PreChargeTime(farads, volts, c.Ohm, fraction, 0)
		if math.Abs(back.TimeS-seconds) > 1e-9*seconds || back.EnergyJ != c.EnergyJ {
			t.Fatalf("%+v and back %+v", c, back)
		}
		for _, class := range Classes {
			if class.At(volts) < class.At(volts+1) {
				t.Fatalf("%s interrupts more at %g V", class.Name, volts+1)
			}
		}
	})
}
