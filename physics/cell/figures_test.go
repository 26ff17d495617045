package cell

import (
	"math"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func read(t *testing.T, f *figure.Figure, pairs ...string) figure.Use {
	t.Helper()
	use, err := f.Read(pairs)
	if err != nil {
		t.Fatal(err)
	}
	return use
}

func TestRestOnThePlateauIsABandNotANumber(t *testing.T) {
	use := read(t, SoCFromRest, "cell=lfp", "voltage=3.30 V")
	near.Equal(t, "low", use.Num("soc_low_fraction"), 0.30, 0.05)
	near.Equal(t, "high", use.Num("soc_high_fraction"), 0.97, 1e-9)
	if note, _ := use.Out["note"].(string); !strings.Contains(note, "flat part") {
		t.Errorf("note %q", note)
	}
	near.Equal(t, "below the plateau", read(t, SoCFromRest, "cell=lfp", "voltage=3.10 V").Num("soc_high_fraction"), 0.0675, 0.01)
}

func TestBandGrowsWithTheMeterError(t *testing.T) {
	fine := read(t, SoCFromRest, "cell=nickel-rich-18650", "voltage=3.7 V", "meter-error=1 mV")
	coarse := read(t, SoCFromRest, "cell=nickel-rich-18650", "voltage=3.7 V", "meter-error=20 mV")
	width := func(u figure.Use) float64 { return u.Num("soc_high_fraction") - u.Num("soc_low_fraction") }
	if !(width(coarse) > 2*width(fine)) || fine.Num("soc_fraction") != coarse.Num("soc_fraction") {
		t.Errorf("bands %g and %g", width(fine), width(coarse))
	}
}

func TestFiguresRefuse(t *testing.T) {
	for _, row := range []struct {
		figure *figure.Figure
		part   string
		in     []string
	}{
		{RestVoltage, "between 0 and 1", []string{"cell=nca", "soc=1.2"}},
		{RestVoltage, "known are nca, nmc532", []string{"cell=unobtainium", "soc=0.5"}},
		{SoCFromRest, "not rested", []string{"cell=nmc532", "voltage=4.4 V"}},
		{SoCFromRest, "not rested", []string{"cell=lead-acid-flooded", "voltage=2.4 V"}},
		{SeriesSpan, "whole number", []string{"cell=nca", "series=6.5"}},
		{ParallelLoss, "not between", []string{"cells=74", "lost=75"}},
		{WindowEnergy, "below high", []string{"cell=nca", "low=4 V", "high=3 V", "series=6", "capacity=10 Ah"}},
		{WarmUp, "35 °C at most", []string{"mass=25 kg", "power=60 W", "loss=1.5 W/K", "from=-5 °C", "to=36 °C", "ambient=-5 °C"}},
		{WarmUp, "needs ambient", []string{"mass=25 kg", "power=60 W", "from=-5 °C", "to=5 °C"}},
		{AcidRest, "not between", []string{"gravity=1.5"}},
		{CalendarStress, "iron-phosphate", []string{"cell=lfp", "voltage=3.4 V", "reference=3.3 V"}},
		{CalendarStress, "reference", []string{"voltage=3.4 V", "reference=3.0 V"}},
		{ResistanceAt, "not between", []string{"resistance=2 mΩ", "temperature=-60 °C", "cell=nca"}},
		{CellHeat, "negative", []string{"current=5 A", "resistance=-2 mΩ"}},
	} {
		if use, err := row.figure.Read(row.in); err == nil || !strings.Contains(err.Error(), row.part) {
			t.Errorf("%s %v: %v %v", row.figure.Name, row.in, use.Out, err)
		}
	}
}

func TestEveryFigureSaysWhatItIs(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Figures() {
		if seen[f.Name] || f.Answers == "" || f.Equation == "" || f.Range == "" || f.Source.Key == "" || len(f.Outputs) == 0 {
			t.Errorf("%s is incomplete or named twice", f.Name)
		}
		seen[f.Name] = true
	}
}

func TestWarmUpKnowsItsEnds(t *testing.T) {
	near.Equal(t, "there already", WarmUpTime(25000, 60, 1.5, 5, 5, -5), 0, 0)
	if !math.IsInf(WarmUpTime(25000, 10, 1.5, -5, 5, -5), 1) {
		t.Error("a heater too weak gets there")
	}
	near.Equal(t, "hardly any loss", WarmUpTime(25000, 60, 1e-9, -5, 5, -5), 25000*10/60.0, 1e-3)
}

func TestAgeingStopsWhereTheModelEnds(t *testing.T) {
	near.Equal(t, "below 3.149 V", CalendarAlpha(3.1, 40), 0, 0)
	near.Equal(t, "held in the cold", CalendarAlpha(4, -10), CalendarAlpha(4, 25), 0)
	if !(CalendarAlpha(4, 35) > 2*CalendarAlpha(4, 25)) {
		t.Error("warmth does not age")
	}
}

func TestTheRuleForAcidAgreesWithTheElectrodePotentials(t *testing.T) {
	for gravity := 1.10; gravity <= 1.281; gravity += 0.01 {
		near.Equal(t, "six cells", 6*(gravity+0.845), 6*bode(gravity), 0.020)
	}
}
