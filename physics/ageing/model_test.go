package ageing

import (
	"math"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/cell"
)

func TestEveryModelSaysWhatItIs(t *testing.T) {
	for _, name := range Names() {
		m := model(t, name)
		if m.Title == "" || m.FittedTo == "" || m.Covers == "" || m.Equation == "" || m.Source.Text == "" || m.Silent == "" || len(m.Limits) == 0 {
			t.Errorf("%s is incomplete", name)
		}
		if b := m.Band; !(0 < b.Low && b.Low < b.Middle && b.Middle < b.High) || m.BandFrom.Text == "" {
			t.Errorf("%s: band %v", name, b)
		}
	}
}

func TestEveryCellHasAModel(t *testing.T) {
	want := map[cell.Family]string{cell.NCA: "schmalstieg-nca", cell.NMC: "schmalstieg", cell.LMO: "xu", cell.LFP: "naumann"}
	for _, name := range cell.Names() {
		c, err := cell.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		first := want[c.Family]
		if c.Family == cell.LeadAcid {
			first = name
		}
		models := For(c)
		if len(models) == 0 || models[0].Name != first {
			t.Errorf("%s goes by %v, want %s", name, models, first)
		}
		if c.Family != cell.LeadAcid && len(models) < 2 {
			t.Errorf("%s has no second opinion", name)
		}
	}
	if m := model(t, "schmalstieg"); !m.Fitted(cell.NMC) || m.Fitted(cell.LFP) || model(t, "schmalstieg-nca").Fitted(cell.NCA) {
		t.Error("fitted families are wrong")
	}
	if _, err := Lookup("hearsay"); err == nil || !strings.Contains(err.Error(), "naumann") {
		t.Errorf("error %v", err)
	}
}

// TestCoefficients holds the rates that the published equations give, computed
// outside this program.
func TestCoefficients(t *testing.T) {
	for _, r := range []struct{ volt, temp, capacity, resistance float64 }{
		{3.699, 50, 1.749362e-3, 2.862465e-3}, {3.699, 25, 2.862558e-4, 6.055888e-4}, {3.699, 35, 6.116615e-4, 1.161816e-3},
		{4.162, 50, 3.220976e-3, 5.063169e-3}, {3.697, 25, 2.852156e-4, 6.035776e-4}, {4.162, 25, 5.270625e-4, 1.071174e-3},
	} {
		near.Relative(t, "calendar, capacity", cell.CalendarAlpha(r.volt, r.temp), r.capacity, 1e-6)
		near.Relative(t, "calendar, resistance", resistanceAlpha(r.volt, r.temp), r.resistance, 1e-6)
	}
	for _, r := range []struct{ rms, depth, capacity, resistance float64 }{
		{3.697, 0.8, 4.031413e-3, 2.087988e-4}, {3.697, 0.2, 1.582813e-3, 4.091880e-5},
		{3.900, 0.8, 4.423716e-3, 2.152236e-4}, {3.667, 0.5, 2.800500e-3, 1.254143e-4},
	} {
		near.Relative(t, "cycling, capacity", capacityBeta(r.rms, r.depth), r.capacity, 1e-6)
		near.Relative(t, "cycling, resistance", resistanceBeta(r.rms, r.depth), r.resistance, 1e-6)
	}
	for depth, want := range map[float64]float64{0.1: 3.1178e-6, 0.2: 5.2479e-6, 0.5: 1.3311e-5, 0.8: 2.9798e-5, 1: 5.8824e-5} {
		near.Relative(t, "fatigue of a cycle", xuDepth(depth), want, 2e-5)
	}
	near.Equal(t, "warmth at 35 °C", xuWarmth(35), 1.95524, 1e-5)
	near.Equal(t, "warmth at 15 °C", xuWarmth(15), 0.48819, 1e-5)
	near.Equal(t, "resistance at 3.09 V rest", resistanceAlpha(3.09, 40), 0, 0)
	near.Equal(t, "the floor of a shallow cycle", resistanceBeta(3.725, 0.05), 1.5e-5, 0)
}

// TestBetweenThePrintedRates: re-users take 10000·(15/C)^(1/3), which misses the
// printed factors by 2 and 10 %.
func TestBetweenThePrintedRates(t *testing.T) {
	for _, r := range wangRates {
		near.Equal(t, "printed", wangB(r[0]), r[1], 1e-6)
	}
	for c := 0.5; c <= 2; c += 0.1 {
		near.Relative(t, "between", wangB(c), 10000*math.Cbrt(15/c), 0.11)
	}
	near.Equal(t, "held below C/2", wangB(0.05), 31630, 1e-6)
	near.Equal(t, "held above 10C", wangB(20), 15512, 1e-6)
}

// TestTheTrapOfWang2014 is why its cycle term is left out.
func TestTheTrapOfWang2014(t *testing.T) {
	factor := func(tempC float64) float64 {
		k := tempC + 273.15
		return 8.61e-6*k*k - 5.13e-3*k + 0.763
	}
	if !(factor(10) > 0 && factor(14.5) < 0 && factor(25) < 0 && factor(35) < 0 && factor(46) > 0) {
		t.Error("the printed coefficients do not turn negative")
	}
	near.Equal(t, "cycles count nothing", left(model(t, "wang2014"), Stress{Throughput: 1000, TempC: 25}), 1, 0)
}

func TestLeadAcidIsTheLesserLife(t *testing.T) {
	m := model(t, "lead-acid-flooded")
	cold, hot := Stress{Days: 365.25, TempC: 20, Depth: 0.5, Throughput: 150}, Stress{Days: 365.25, TempC: 45, Depth: 0.5, Throughput: 30}
	near.Equal(t, "cycles end it", left(m, cold), 1-0.2*300.0/900, 1e-9)
	near.Equal(t, "corrosion ends it", left(m, hot), 1-0.2/2.5, 1e-9)
	near.Equal(t, "counted cycles", left(m, Stress{TempC: 20, Cycles: []Cycle{{Range: 0.5, Count: 90}, {Range: 0.1, Count: 500}}}), 1-0.2*(0.1+0.1), 1e-9)
	near.Equal(t, "absorbed glass mat", left(model(t, "lead-acid-agm"), cold), 1-0.2*600.0/900, 1e-9)
}

func TestOutsideSaysHowFar(t *testing.T) {
	l := model(t, "naumann").Start()
	for _, temp := range []float64{-4, 20, -11.5} {
		l.Add(Stress{Days: 400, TempC: temp, SoC: 0.5, CRate: 0.05, Depth: 0.3, Throughput: 50})
	}
	got := strings.Join(l.Outside(), "\n")
	for _, part := range []string{"cell temperature -11.5 to -4 °C (fitted for 0 to 60 °C", "rate 0.05 C (fitted for 0.2 to 1 C, from memory", "age 1200 days (fitted for 0 to 885 days"} {
		if !strings.Contains(got, part) {
			t.Errorf("%q lacks %q", got, part)
		}
	}
	if strings.Count(got, "\n") != 2 {
		t.Errorf("each input once: %q", got)
	}
	rested := model(t, "naumann").Start()
	rested.Add(Stress{Days: 100, TempC: 20, SoC: 0.5})
	if got := rested.Outside(); got == nil || len(got) != 0 {
		t.Errorf("within its range: %v", got)
	}
}
