package hourly

import (
	"os"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/weather"
)

// year is what a file's year comes to: kWh/m², °C, hours below 0 °C.
type year struct {
	file                      string
	ghi, dni, dhi             float64
	mean, low, high           float64
	frost                     int
	lat, lon, elevation, zone float64
	lightAt, airAt            float64
}

// Sums and temperatures of the shared files as computed with an independent
// program.
var yearFiles = []year{
	{"tmy3-greensboro-nc.csv.gz", 1566.2, 1476.5, 682.2, 14.4, -16.7, 35.6, 792, 36.1, -79.95, 273, -5, 0.5, 1},
	{"tmy3-sand-point-ak.csv.gz", 829.2, 819.2, 460.9, 4.4, -10.6, 19.4, 1640, 55.317, -160.517, 7, -9, 0.5, 1},
	{"tmy2-miami-fl.tm2.gz", 1792.6, 1504.9, 809.5, 24.3, 3.3, 33.9, 0, 25.8, -80.267, 2, -5, 0.5, 1},
	{"epw-chicago-tmy3.epw.gz", 1406.6, 1294.3, 660.3, 10.0, -22.8, 35.0, 1788, 41.98, -87.92, 201, -6, 0.5, 1},
	{"epw-santiago-tmyx.epw.gz", 1910.6, 1894.2, 654.2, 15.0, -3.0, 36.0, 42, -33.393, -70.786, 474, -4, 0.5, 1},
	{"pvgis-tmy-45N-8E.csv.gz", 1435.9, 1591.6, 570.9, 13.6, -2.3, 34.3, 164, 45, 8, 250, 0, 0.1761, 0},
	{"pvgis-tmy-45N-8E.json.gz", 1435.9, 1591.6, 570.9, 13.6, -2.3, 34.3, 164, 45, 8, 250, 0, 0.1761, 0},
}

func TestYearFiles(t *testing.T) {
	for _, want := range yearFiles {
		t.Run(want.file, func(t *testing.T) {
			h := must(t, want.file)
			if h.Len() != 8760 || !h.Whole() || h.Basis.Kind != weather.File || h.Basis.Name != want.file {
				t.Fatalf("%d hours, whole %v, basis %+v", h.Len(), h.Whole(), h.Basis)
			}
			want.compare(t, h)
		})
	}
}

func (want year) compare(t *testing.T, h *weather.Hours) {
	near.Equal(t, "GHI", sum(h.GHI)/1000, want.ghi, 0.06)
	near.Equal(t, "DNI", sum(h.DNI)/1000, want.dni, 0.06)
	near.Equal(t, "DHI", sum(h.DHI)/1000, want.dhi, 0.06)
	near.Equal(t, "mean temperature", sum(h.TempC)/float64(h.Len()), want.mean, 0.06)
	low, high, frost := h.TempC[0], h.TempC[0], 0
	for _, v := range h.TempC {
		low, high = min(low, v), max(high, v)
		if v < 0 {
			frost++
		}
	}
	near.Equal(t, "lowest", low, want.low, 0.06)
	near.Equal(t, "highest", high, want.high, 0.06)
	near.Equal(t, "hours of frost", float64(frost), float64(want.frost), 0)
	near.Equal(t, "latitude", h.Place.Latitude, want.lat, 1e-3)
	near.Equal(t, "longitude", h.Place.Longitude, want.lon, 1e-3)
	near.Equal(t, "elevation", h.Place.Elevation, want.elevation, 0)
	near.Equal(t, "zone", h.Zone, want.zone, 0)
	near.Equal(t, "LightAt", h.LightAt, want.lightAt, 1e-9)
	near.Equal(t, "AirAt", h.AirAt, want.airAt, 0)
}

func sum(v []float64) (s float64) {
	for _, x := range v {
		s += x
	}
	return s
}

// Both forms of one data set are the same hours.
func TestCSVAndJSONAgree(t *testing.T) {
	a, b := must(t, "pvgis-tmy-45N-8E.csv.gz"), must(t, "pvgis-tmy-45N-8E.json.gz")
	for i := range a.GHI {
		if a.GHI[i] != b.GHI[i] || a.DNI[i] != b.DNI[i] || a.DHI[i] != b.DHI[i] || a.TempC[i] != b.TempC[i] || a.Wind[i] != b.Wind[i] {
			t.Fatalf("hour %d differs", i)
		}
	}
	if a.Start != b.Start {
		t.Error("the years begin apart")
	}
}

// The packed file is read as it is.
func TestGzip(t *testing.T) {
	f, err := os.Open(shared.Path(t, "data/weather/epw-chicago-tmy3.epw.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	h, err := Read("chicago", f)
	if err != nil || h.Len() != 8760 {
		t.Fatal(err)
	}
}

// One row of each file, as its text has it: 1 July, the hour that ends at noon.
func TestOneRow(t *testing.T) {
	const hour = 181*24 + 11
	rows := []struct {
		file string
		line int
	}{{"epw-chicago-tmy3.epw.gz", 9 + hour}, {"tmy3-greensboro-nc.csv.gz", 3 + hour}, {"tmy2-miami-fl.tm2.gz", 2 + hour}}
	wants := []string{"1991,7,1,12,", "07/01/", "0701"}
	for i, r := range rows {
		got := strings.Split(text(t, r.file), "\n")[r.line-1]
		if !strings.Contains(got, wants[i]) && i > 0 || i == 0 && !strings.Contains(got, ",7,1,12,") {
			t.Errorf("%s: hour %d is not line %d: %.40s", r.file, hour, r.line, got)
		}
	}
	h := must(t, "epw-chicago-tmy3.epw.gz")
	fields := strings.Split(strings.Split(text(t, "epw-chicago-tmy3.epw.gz"), "\n")[8+hour], ",")
	for i, got := range map[int]float64{13: h.GHI[hour], 14: h.DNI[hour], 15: h.DHI[hour], 6: h.TempC[hour], 21: h.Wind[hour]} {
		want, err := floats(fields, 1, "field", i)
		if err != nil || got != want[0] {
			t.Errorf("field %d: %g, want %v %v", i, got, want, err)
		}
	}
}

func TestSurfradDay(t *testing.T) {
	h := must(t, "surfrad-alamosa-2016-01-01.dat.gz")
	if h.Len() != 24 || h.Whole() || h.Basis.Years != "2016" {
		t.Fatalf("%d hours, %+v", h.Len(), h.Basis)
	}
	near.Equal(t, "longitude", h.Place.Longitude, -105.92, 0)
	if low := h.TempC[13]; low > -15 {
		t.Errorf("13 h UT, before sunrise: %g °C", low)
	}
	noon := h.GHI[19] // 19 h UT is local noon
	if noon < 400 || noon > 650 || h.GHI[8] != 0 {
		t.Errorf("noon %g W/m², night %g", noon, h.GHI[8])
	}
}

// A series on a tilted plane is refused, on a flat one taken.
func TestHourlySeries(t *testing.T) {
	csv := text(t, "pvgis-hourly-45N-8E-sample.csv")
	if e := refused(t, csv); !strings.Contains(e.Message, "slope 30") || e.Line != 9 {
		t.Errorf("%v", e)
	}
	if e := refused(t, text(t, "pvgis-hourly-45N-8E-sample.json")); !strings.Contains(e.Message, "turns") {
		t.Errorf("%v", e)
	}
	h, err := Read("flat", strings.NewReader(strings.Replace(csv, "Slope: 30", "Slope: 0", 1)))
	if err != nil || h.Len() != 14 {
		t.Fatal(err)
	}
	near.Equal(t, "GHI", h.GHI[8], 26.71+8.28+0.21, 1e-9)
	near.Equal(t, "DNI", h.DNI[8], 26.71/0.140208, 0.1)
	near.Equal(t, "LightAt", h.LightAt, 1.0/6, 1e-9)
	if y, m, d, _ := h.Start.Date(); y != 2016 || m != 1 || d != 1 {
		t.Error(y, m, d)
	}
}

// The JSON form of a series on level ground, made up: two hours.
func TestHourlyJSON(t *testing.T) {
	doc := `{"inputs": {"location": {"latitude": 45, "longitude": 8, "elevation": 250},
		"mounting_system": {"fixed": {"slope": {"value": SLOPE, "optimal": false}}}},
	"outputs": {"hourly": [
		{"time": "20191231:2310", "Gb(i)": 100, "Gd(i)": 50, "Gr(i)": 0, "H_sun": 30, "T2m": 5, "WS10m": 2},
		{"time": "20200101:0010", "Gb(i)": 10, "Gd(i)": 5, "Gr(i)": 0, "H_sun": 2, "T2m": 4, "WS10m": 2}]}}`
	h, err := Read("x", strings.NewReader(strings.Replace(doc, "SLOPE", "0", 1)))
	if err != nil || h.Len() != 2 || h.Basis.Years != "2019-2020" {
		t.Fatal(err, h)
	}
	near.Equal(t, "GHI", h.GHI[0], 150, 1e-9)
	near.Equal(t, "DNI", h.DNI[0], 200, 1e-9)
	near.Equal(t, "DHI of a sun below 3°", h.DHI[1], 15, 1e-9)
	if e := refused(t, strings.Replace(doc, "SLOPE", "35", 1)); !strings.Contains(e.Message, "slope 35") {
		t.Error(e)
	}
	gap := strings.Replace(strings.Replace(doc, "SLOPE", "0", 1), "20200101:0010", "20200101:0110", 1)
	if e := refused(t, gap); e.Line != 5 || e.Expected != "20200101:0010" {
		t.Error(e)
	}
}
