package travel

import (
	"math"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/ageing"
)

func stressed(t testing.TB, name string) (*study, *Result) {
	t.Helper()
	s := ready(t, open(t, name), Options{})
	s.years = []*yearTally{oneYear(t, s)}
	return s, s.result()
}

// What the months hold is what the year's own sums hold.
func TestStressAgreesWithTheYear(t *testing.T) {
	for _, name := range []string{"curlew", "dipper"} {
		s, res := stressed(t, name)
		days, through, cycles, soc := 0.0, 0.0, 0.0, 0.0
		for _, m := range res.Months {
			x := m.Stress
			days += x.Days
			through += x.Throughput
			soc += x.SoC * x.Days
			warm := 0.0
			for _, w := range x.Warmth {
				warm += w.Days
			}
			near.Equal(t, name+": days by temperature", warm, x.Days, 1e-9)
			if x.EffectiveC < x.TempC-1e-9 {
				t.Errorf("%s month %d: effective %g °C lies below the mean %g °C", name, m.Month, x.EffectiveC, x.TempC)
			}
			for _, c := range x.Cycles {
				cycles += c.Range * c.Count
			}
		}
		near.Equal(t, name+": days", days, yearDays, 1e-6)
		near.Equal(t, name+": throughput", through*s.fit.Cell.RatedAh, res.Year.FullCycles*s.fit.Cell.Capacity, 1e-6*s.fit.Cell.RatedAh)
		if share := cycles / res.Year.FullCycles; share < 0.9 || share > 1.02 {
			t.Errorf("%s: counted cycles move %.3f of the charge that moved", name, share)
		}
		if mean := soc / days; mean < res.Year.SoCMin || mean > 1 {
			t.Errorf("%s: mean charge %g", name, mean)
		}
	}
}

// The year handed over by temperature ages a cell as a year by the hour would:
// between its coldest and warmest held throughout.
func TestStressByTemperature(t *testing.T) {
	_, res := stressed(t, "curlew")
	model, err := ageing.Lookup("schmalstieg")
	if err != nil {
		t.Fatal(err)
	}
	lost := func(year []ageing.Stress) float64 {
		l := model.Start()
		for _, s := range year {
			l.Add(s)
		}
		calendar, _ := l.Lost()
		return calendar
	}
	year := res.Stress()
	got, low, high := lost(year), lost(held(year, 25)), lost(held(year, res.Year.BankTempMax))
	if got < low || got > high {
		t.Errorf("calendar loss %g, not between %g at 25 °C and %g at the warmest", got, low, high)
	}
}

func held(year []ageing.Stress, tempC float64) []ageing.Stress {
	list := make([]ageing.Stress, len(year))
	for k, s := range year {
		s.TempC = tempC
		list[k] = s
	}
	return list
}

// A bank that does nothing has no throughput, no cycles and one temperature.
func TestStressOfRest(t *testing.T) {
	r := bare(t)
	s := ready(t, r, Options{Weather: steady(0, 30)})
	y := oneYear(t, s)
	for k, m := range y.stress {
		if m.Throughput != 0 || m.CRate != 0 {
			t.Errorf("month %d: throughput %g at %g C from nothing", k+1, m.Throughput, m.CRate)
		}
		near.Equal(t, "temperature", m.TempC, 30, 0.01)
		near.Equal(t, "effective temperature", m.EffectiveC, 30, 0.01)
		near.Equal(t, "charge", m.SoC, startSoC, 0.01)
		near.Equal(t, "rest voltage", m.CellV, s.fit.Kind.Curve.Voltage(startSoC), 5e-3)
	}
}

func TestEffectiveTemperature(t *testing.T) {
	s := newStrain(1, 1, 1)
	s.turn(1)
	s.now.seconds = 2
	for _, tempC := range []float64{10, 40} {
		bin := &s.now.bins[int((tempC-warmLow)/warmK)]
		bin.Days, bin.TempC = 1, tempC
	}
	_, mean, effective := s.now.warmth()
	near.Equal(t, "mean", mean, 25, 1e-9)
	pace := (math.Exp(-agingK/283.15) + math.Exp(-agingK/313.15)) / 2
	near.Equal(t, "effective", math.Exp(-agingK/(effective+273.15))/pace, 1, 1e-9)
}
