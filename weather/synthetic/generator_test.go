package synthetic

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/physics/sun"
	"ampstead/weather"
)

// places from the polar night to the tropics and the southern summer.
var places = []struct {
	name                string
	lat, lon, elevation float64
}{
	{"Inverness", 57.5, -4.2, 30}, {"Tromsø", 69.7, 18.9, 10}, {"Svalbard", 78.2, 15.6, 10}, {"Seville", 37.4, -6, 10},
	{"Santiago", -33.4, -70.8, 474}, {"Nairobi", -1.3, 36.8, 1660}, {"Ulan Bator", 47.9, 106.9, 1350}, {"Sahara", 24, 10, 800},
	{"high plain", -22.9, -66, 3500}, {"Fairbanks", 64.8, -147.7, 135},
}

// Twenty years reproduce the monthly means: irradiation within 2 %, temperature
// within 0.3 K and the daily range within a tenth.
func TestMeansOverTwentyYears(t *testing.T) {
	for _, p := range places {
		t.Run(p.name, func(t *testing.T) {
			m := at(t, p.lat, p.lon, p.elevation)
			g, err := New(&m, 2026)
			if err != nil {
				t.Fatal(err)
			}
			var got weather.Monthly
			const years = 20
			for n := range years {
				one, err := g.Year(11, n).Monthly()
				if err != nil {
					t.Fatal(err)
				}
				for i, v := range one.Months {
					got.Months[i].GHI += v.GHI / years
					got.Months[i].TempC += v.TempC / years
					got.Months[i].RangeK += v.RangeK / years
				}
			}
			for i, want := range m.Months {
				name := fmt.Sprint("month ", i+1)
				if g.months[i].outside > 31*darkness {
					near.Relative(t, name+" irradiation", got.Months[i].GHI, want.GHI, 0.02)
				}
				near.Equal(t, name+" temperature", got.Months[i].TempC, want.TempC, 0.3)
				if g.months[i].outside > 31*1000 { // where the sun makes the range
					near.Equal(t, name+" range", got.Months[i].RangeK, want.RangeK, 0.1*want.RangeK+0.7)
				}
			}
		})
	}
}

// Months of single years spread about the mean as the climate says.
func TestSpreadBetweenYears(t *testing.T) {
	m := inverness(t)
	g, err := New(&m, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for i := range m.Months {
		squares := 0.0
		for n := range 20 {
			month := &g.months[i]
			first, last := month.from+1, month.to
			sum := 0.0
			for _, v := range g.Part(5, n, first, last).GHI {
				sum += v
			}
			mean := sum / float64(last-first+1) / m.Months[i].GHI
			squares += (mean - 1) * (mean - 1)
		}
		near.Relative(t, fmt.Sprint("month ", i+1), math.Sqrt(squares/20), g.months[i].spread, 0.12)
	}
}

// Every hour is possible: no light by night, none beyond space, and the three
// kinds of light add up.
func TestHoursArePossible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := places[rapid.IntRange(0, len(places)-1).Draw(t, "place")]
		m := at(t, p.lat, p.lon, p.elevation)
		for i := range m.Months {
			m.Months[i].GHI *= rapid.Float64Range(0, 1.5).Draw(t, "factor")
		}
		g, err := New(&m, rapid.IntRange(2024, 2027).Draw(t, "calendar"))
		if err != nil {
			t.Fatal(err)
		}
		h := g.Year(rapid.Uint64().Draw(t, "seed"), rapid.IntRange(0, 1000).Draw(t, "number"))
		if err := h.Check(); err != nil || !h.Whole() {
			t.Fatal(err, h.Len())
		}
		for i, v := range h.GHI {
			sky := &g.sky[i/24].hours[i%24]
			if v < 0 || h.DNI[i] < 0 || h.DHI[i] < 0 || v > 1.6*sky.outside+1e-9 || h.DNI[i] > 2300 {
				t.Fatalf("hour %d: %g, %g, %g of %g W/m²", i, v, h.DNI[i], h.DHI[i], sky.outside)
			}
			if v > 0 && math.Abs(v-h.DHI[i]-h.DNI[i]*sky.up) > 1e-6*v {
				t.Fatalf("hour %d does not add up: %g, %g, %g", i, v, h.DNI[i], h.DHI[i])
			}
			if h.TempC[i] < -95 || h.TempC[i] > 65 {
				t.Fatalf("hour %d: %g °C", i, h.TempC[i])
			}
		}
	})
}

// Equal seeds give equal years; a part is that part of the year.
func TestSeeds(t *testing.T) {
	m := inverness(t)
	g, err := New(&m, 2024)
	if err != nil {
		t.Fatal(err)
	}
	whole := g.Year(3, 4)
	again, err := Year(&m, 2024, 3, 4)
	if err != nil || !slices.Equal(whole.GHI, again.GHI) || !slices.Equal(whole.TempC, again.TempC) {
		t.Error("the same year differs", err)
	}
	part := g.Part(3, 4, 60, 75)
	from, to := 59*24, 75*24
	if !slices.Equal(part.GHI, whole.GHI[from:to]) || !slices.Equal(part.DNI, whole.DNI[from:to]) || !slices.Equal(part.TempC, whole.TempC[from:to]) {
		t.Error("a part differs from the whole")
	}
	near.Equal(t, "start of the part", float64(part.Start-whole.Start), 59, 1e-9)
	for _, other := range []*weather.Hours{g.Year(4, 4), g.Year(3, 5)} {
		if slices.Equal(whole.GHI, other.GHI) || slices.Equal(whole.TempC, other.TempC) {
			t.Error("another seed or number gives the same year")
		}
	}
	if whole.Basis.Seed != 3 || whole.Basis.Number != 4 || whole.Basis.Kind != weather.Synthetic || !slices.Contains(whole.Basis.Keys(), "aguiar-1988") {
		t.Errorf("%+v", whole.Basis)
	}
	if len(m.Basis.Sources) == len(whole.Basis.Sources) {
		t.Error("the climate's own basis was changed")
	}
}

// These hours must not change from one version to the next without a word.
func TestSequenceIsFixed(t *testing.T) {
	m := weather.Monthly{Place: sun.Place{Latitude: 57, Longitude: -4, Elevation: 50}}
	for i := range m.Months {
		m.Months[i] = weather.Month{GHI: 1500, TempC: 8, RangeK: 7, DayK: 3, SpreadGHI: 0.05, SpreadK: 1}
	}
	h, err := Year(&m, 2026, 1, 0)
	if err != nil {
		t.Fatal(err)
	}
	const noon = 100*24 + 12
	got := fmt.Sprintf("%.3f %.3f %.3f %.4f", h.GHI[noon], h.DNI[noon], h.DHI[noon], h.TempC[noon])
	if want := "359.080 89.642 300.279 13.0218"; got != want {
		t.Errorf("noon of 11 April: %s, want %s", got, want)
	}
}

// Sun and temperature keep to the place's own clock.
func TestClock(t *testing.T) {
	m := at(t, 64.8, -147.7, 135)
	h, err := Year(&m, 2026, 1, 0)
	if err != nil {
		t.Fatal(err)
	}
	var light, warm [24]float64
	for i, v := range h.GHI {
		light[i%24] += v
		warm[i%24] += h.TempC[i]
	}
	brightest, coldest, warmest := 0, 0, 0
	for i := range light {
		if light[i] > light[brightest] {
			brightest = i
		}
		if warm[i] < warm[coldest] {
			coldest = i
		}
		if warm[i] > warm[warmest] {
			warmest = i
		}
	}
	if brightest < 11 || brightest > 12 || coldest < 4 || coldest > 7 || warmest < 13 || warmest > 15 {
		t.Errorf("brightest hour %d, coldest %d, warmest %d", brightest, coldest, warmest)
	}
}

func TestRefusals(t *testing.T) {
	m := inverness(t)
	if _, err := New(&m, 1200); err == nil {
		t.Error("year 1200 is taken")
	}
	m.Months[0].TempC = math.NaN()
	if _, err := New(&m, 2026); err == nil {
		t.Error("a month without temperature is taken")
	}
}
