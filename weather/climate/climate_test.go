package climate

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/weather/climate/table"
)

// At a cell's centre the table gives the published figure: kWh/m² a day of the
// file, in Wh/m².
func TestIrradiationAtACell(t *testing.T) {
	m, err := At(-59.5, -47.5, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{4.72, 3.48, 2.21, 1.16, 0.49, 0.18, 0.30, 0.97, 2.10, 3.54, 4.84, 5.25} {
		near.Equal(t, "month", m.Months[i].GHI, 1000*want, 1e-9)
	}
}

// Temperature follows the elevation by the lapse rate.
func TestLapse(t *testing.T) {
	low, err := At(46.5, 8, 500)
	if err != nil {
		t.Fatal(err)
	}
	high, err := At(46.5, 8, 2500)
	if err != nil {
		t.Fatal(err)
	}
	for i := range low.Months {
		near.Equal(t, "2000 m up", low.Months[i].TempC-high.Months[i].TempC, 13, 1e-9)
		near.Equal(t, "sun", low.Months[i].GHI, high.Months[i].GHI, 0)
	}
}

func TestUnknownElevation(t *testing.T) {
	m, err := At(46.5, 8, Unknown)
	if err != nil || m.Place.Elevation < 300 || m.Place.Elevation > 2000 {
		t.Fatal(err, m.Place)
	}
	known, err := At(46.5, 8, m.Place.Elevation)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "January", m.Months[0].TempC, known.Months[0].TempC, 1e-9)
	if len(m.Basis.Notes) != len(known.Basis.Notes)+1 {
		t.Error("the basis does not say that the elevation was taken from the terrain")
	}
}

func TestRefusals(t *testing.T) {
	for _, tt := range []struct {
		lat, lon, elevation float64
		want                error
	}{
		{91, 0, 0, ErrNowhere}, {math.NaN(), 0, 0, ErrNowhere}, {0, 400, 0, ErrNowhere}, {0, math.Inf(1), 0, ErrNowhere},
		{45, 8, 9500, ErrNowhere}, {-85, 0, 0, ErrOpenSea}, {30, -40, 0, ErrOpenSea},
	} {
		if _, err := At(tt.lat, tt.lon, tt.elevation); !errors.Is(err, tt.want) {
			t.Errorf("%g, %g: %v, want %v", tt.lat, tt.lon, err, tt.want)
		}
	}
}

// Anywhere there is a climate or an error, and a climate passes its check; going
// round the Earth changes nothing.
func TestAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-90, 90).Draw(t, "lat")
		lon := rapid.Float64Range(-180, 0).Draw(t, "lon")
		a, errA := At(lat, lon, 100)
		b, errB := At(lat, lon+360, 100)
		if (errA == nil) != (errB == nil) {
			t.Fatal(errA, errB)
		}
		if errA != nil {
			return
		}
		if err := a.Check(); err != nil {
			t.Fatal(err)
		}
		for i := range a.Months {
			if math.Abs(a.Months[i].GHI-b.Months[i].GHI) > 1e-6 || math.Abs(a.Months[i].TempC-b.Months[i].TempC) > 1e-6 {
				t.Fatalf("month %d: %+v, %+v", i+1, a.Months[i], b.Months[i])
			}
		}
	})
}

// Rules against the figures their sources and the station months give.
func TestRules(t *testing.T) {
	near.Equal(t, "range inland at K 0.5", DailyRange(0.5, 1), 9.77, 0.01)
	near.Equal(t, "range at the coast", DailyRange(0.5, 0), 6.93, 0.01)
	near.Equal(t, "spread of dull month's mean", meanSpread(0.15, 0.27, 30), 0.0361, 1e-4)
	near.Equal(t, "spread of its temperature", meanSpread(4.8, 0.7, 30), 2.086, 1e-3)
}

func TestFind(t *testing.T) {
	for query, want := range map[string]string{
		"Inverness": "Inverness / Dalcross, United Kingdom", "ENTC": "Tromso / Langnes, Norway",
		"o'hare chicago": "Chicago O'Hare International, IL, United States", "santiago cuba": "Santiago De Cuba, Oriente, Cuba",
	} {
		list, err := Find(query)
		if err != nil || len(list) == 0 || list[0].Name != want {
			t.Errorf("%s: %v, %v; want %s first", query, list, err, want)
		}
	}
	for _, query := range []string{"", "  ", "qqqq", "inverness norway"} {
		if list, err := Find(query); len(list) != 0 || err != nil {
			t.Errorf("%q: %v, %v", query, list, err)
		}
	}
	if list, _ := Find("a"); len(list) != most {
		t.Errorf("%d places hold an a", len(list))
	}
}

// Every place of the list has a climate, but for islands the grid does not know.
func TestPlacesHaveAClimate(t *testing.T) {
	list, err := places()
	if err != nil || len(list) < 5000 {
		t.Fatal(len(list), err)
	}
	without := 0
	for _, p := range list {
		if _, err := p.Climate(); err != nil {
			without++
			if !strings.Contains(err.Error(), "climate table covers") {
				t.Errorf("%s: %v", p.Name, err)
			}
		}
	}
	if without > len(list)/100 {
		t.Errorf("%d of %d places have no climate", without, len(list))
	}
}

func BenchmarkAt(b *testing.B) {
	for b.Loop() {
		if _, err := At(57.5, -4.2, 30); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		if _, err := Find("inverness"); err != nil {
			b.Fatal(err)
		}
	}
}

// Unpacking the table, which the first question costs.
func BenchmarkUnpack(b *testing.B) {
	for b.Loop() {
		if _, err := table.Read(bytes.NewReader(packedGrids)); err != nil {
			b.Fatal(err)
		}
	}
}
