package weather_test

import (
	"math"
	"slices"
	"testing"

	"ampstead/internal/near"
	"ampstead/weather"
	"ampstead/weather/climate"
	"ampstead/weather/synthetic"
)

// station is an hourly file and its place.
type station struct {
	key, name, kind     string
	lat, lon, elevation float64
}

var stations = []station{
	{"tmy3-greensboro", "Greensboro", "humid, warm", 36.10, -79.95, 273},
	{"tmy3-sand-point", "Sand Point, Aleutians", "cold, maritime", 55.317, -160.517, 7},
	{"tm2-miami", "Miami", "tropical", 25.80, -80.27, 2},
	{"epw-chicago", "Chicago", "continental", 41.98, -87.92, 201},
	{"epw-santiago", "Santiago", "dry summer", -33.393, -70.786, 474},
	{"pvgis-tmy-45N-8E", "45° N 8° E", "humid, warm", 45.0, 8.0, 250},
}

// ownClimate is a climate of a station's own monthly means.
func ownClimate(t testing.TB, s station, measured [12]stats) weather.Monthly {
	t.Helper()
	m, err := climate.At(s.lat, s.lon, s.elevation)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range measured {
		m.Months[i] = weather.Month{GHI: 1000 * v.ghi, TempC: v.mean}
	}
	climate.Estimate(&m)
	return m
}

// drawnOnce keeps the statistics of generated.
var drawnOnce = map[string][12]stats{}

// generated returns the statistics of twenty synthetic years made from a
// station's own monthly means, month by month.
func generated(t testing.TB, s station, measured [12]stats) [12]stats {
	t.Helper()
	if got, ok := drawnOnce[s.key]; ok {
		return got
	}
	m := ownClimate(t, s, measured)
	g, err := synthetic.New(&m, 2026)
	if err != nil {
		t.Fatal(err)
	}
	const years = 20
	var sums [12]stats
	for n := range years {
		days := g.Year(1, n).Days()
		for i := range sums {
			sums[i].add(ofMonth(days, i+1))
		}
	}
	for i := range sums {
		sums[i].div(years)
	}
	drawnOnce[s.key] = sums
	return sums
}

func yearOf(months [12]stats) (s stats) {
	for _, m := range months {
		s.add(m)
	}
	s.div(12)
	return s
}

// Twenty years from a station's own means repeat its statistics: spread, share
// of dull days and persistence of the sun, and those of temperature. One typical
// year measures them no better than this.
func TestGeneratorAgainstStations(t *testing.T) {
	all := targets(t)
	for _, s := range stations {
		got, want := yearOf(generated(t, s, all[s.key])), yearOf(all[s.key])
		near.Relative(t, s.name+" irradiation", got.ghi, want.ghi, 0.005)
		near.Equal(t, s.name+" temperature", got.mean, want.mean, 0.05)
		near.Equal(t, s.name+" spread of clearness", got.ktSD, want.ktSD, 0.045)
		near.Equal(t, s.name+" persistence of clearness", got.ktLag, want.ktLag, 0.2)
		near.Equal(t, s.name+" dull days", got.dull, want.dull, 0.08)
		near.Equal(t, s.name+" spread of temperature", got.tempSD, want.tempSD, 1.2)
		near.Equal(t, s.name+" persistence of temperature", got.tempLag, want.tempLag, 0.12)
		near.Equal(t, s.name+" range and sun", got.rangeKt, want.rangeKt, 0.3)
	}
}

// About the climate's mean, not the single month's, days follow each other as
// the matrices published say.
func TestPublishedDayToDayCorrelation(t *testing.T) {
	published := [10]float64{0.38, 0.02, 0.28, 0.31, 0.32, 0.31, 0.23, 0.24, 0.20, 0.25}
	for _, s := range stations {
		m, err := climate.At(s.lat, s.lon, s.elevation)
		if err != nil {
			t.Fatal(err)
		}
		g, err := synthetic.New(&m, 2026)
		if err != nil {
			t.Fatal(err)
		}
		var products, squares, want, n float64
		for year := range 20 {
			days := g.Year(3, year).Days()
			for i := range days[:len(days)-1] {
				a, b := days[i], days[i+1]
				if a.Month != b.Month {
					continue
				}
				mean := climate.Clearness(&m, a.Month-1)
				x, y := a.Clearness()-mean, b.Clearness()-mean
				products, squares = products+x*y, squares+(x*x+y*y)/2
				want += published[max(0, min(9, int(math.Ceil((mean-0.3)/0.05))))]
				n++
			}
		}
		near.Equal(t, s.name, products/squares, want/n, 0.06)
	}
}

// Frost is what locks the charger out: its hours lie within those of the twenty
// synthetic years, but for the mild typical year of northern Italy.
func TestFrostHours(t *testing.T) {
	all := targets(t)
	for _, s := range stations {
		_, cold := extremes(t, s, all[s.key])
		got := frost(hoursOf(t, s.key))
		if s.key == "pvgis-tmy-45N-8E" {
			near.Equal(t, s.name, float64(slices.Min(cold)), float64(got), 200)
		} else if got < slices.Min(cold) || got > slices.Max(cold) {
			t.Errorf("%s: %d hours of frost, synthetic %v", s.name, got, cold)
		}
	}
}
