package panel

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ampstead/internal/shared"
	"ampstead/physics/sun"
)

// hour is what a standard hourly file says of one hour.
type hour struct {
	year, month, day, hour int // hour 0 to 23, as it starts
	light                  sun.Irradiance
	temperature, wind      float64
}

// station is an hourly file and what the reference table says of where it is.
type station struct {
	name, file string
	read       func(fields string) (hour, bool)
}

var stations = []station{
	{"tmy3-greensboro", "tmy3-greensboro-nc.csv.gz", tmy3}, {"tmy3-sand-point", "tmy3-sand-point-ak.csv.gz", tmy3},
	{"tm2-miami", "tmy2-miami-fl.tm2.gz", tm2}, {"epw-chicago", "epw-chicago-tmy3.epw.gz", epw},
	{"epw-santiago", "epw-santiago-tmyx.epw.gz", epw}, {"pvgis-tmy-45N-8E", "pvgis-tmy-45N-8E.csv.gz", pvgis},
}

func float(text string) float64 {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		panic(fmt.Sprintf("%q: %v", text, err))
	}
	return v
}

func whole(text string) int { return int(float(text)) }

func tmy3(line string) (hour, bool) {
	f := strings.Split(line, ",")
	if len(f) < 60 || !strings.Contains(f[0], "/") || strings.HasPrefix(f[0], "Date") {
		return hour{}, false
	}
	return hour{whole(f[0][6:]), whole(f[0][:2]), whole(f[0][3:5]), whole(f[1][:2]) - 1,
		sun.Irradiance{Global: float(f[4]), Beam: float(f[7]), Diffuse: float(f[10])}, float(f[31]), float(f[46])}, true
}

func epw(line string) (hour, bool) {
	f := strings.Split(line, ",")
	if len(f) < 34 || f[0] == "LOCATION" || strings.Contains(f[0], " ") {
		return hour{}, false
	}
	return hour{whole(f[0]), whole(f[1]), whole(f[2]), whole(f[3]) - 1,
		sun.Irradiance{Global: float(f[13]), Beam: float(f[14]), Diffuse: float(f[15])}, float(f[6]), float(f[21])}, true
}

func tm2(line string) (hour, bool) {
	if len(line) < 100 {
		return hour{}, false
	}
	return hour{1900 + whole(line[1:3]), whole(line[3:5]), whole(line[5:7]), whole(line[7:9]) - 1,
		sun.Irradiance{Global: float(line[17:21]), Beam: float(line[23:27]), Diffuse: float(line[29:33])}, float(line[67:71]) / 10, float(line[95:98]) / 10}, true
}

func pvgis(line string) (hour, bool) {
	f := strings.Split(line, ",")
	if len(f) != 10 || strings.HasPrefix(f[0], "time") {
		return hour{}, false
	}
	return hour{whole(f[0][:4]), whole(f[0][4:6]), whole(f[0][6:8]), whole(f[0][9:11]),
		sun.Irradiance{Global: float(f[3]), Beam: float(f[4]), Diffuse: float(f[5])}, float(f[1]), float(f[7])}, true
}

func (s station) hours(t testing.TB) []hour {
	f, err := os.Open(shared.Path(t, "data/weather/"+s.file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	var list []hour
	for lines := bufio.NewScanner(z); lines.Scan(); {
		if h, ok := s.read(strings.TrimRight(lines.Text(), "\r")); ok {
			list = append(list, h)
		}
	}
	if len(list) != 8760 {
		t.Fatalf("%s has %d hours", s.file, len(list))
	}
	return list
}

// site is where and when: what the quick chain needs beside the hours.
type site struct {
	place  sun.Place
	zone   float64 // seconds east of UTC
	within float64 // seconds from the start of the hour to its sun
}

// each runs the quick chain over the hours of a year, 24 to a day.
func (s site) each(hours []hour, p *Plane, do func(h *hour, sky *Sky)) {
	sky := Sky{Albedo: 0.2}
	var day sun.Day
	for k := range hours {
		h := &hours[k]
		if k%24 == 0 {
			day = sun.NewDay(sun.At(h.year, h.month, h.day, -s.zone), s.place)
			sky.Normal = sun.Extraterrestrial(day.Start().DayOfYear(), sun.SolarConstant)
		}
		if h.light.Global <= 0 && h.light.Diffuse <= 0 && h.light.Beam <= 0 {
			continue
		}
		sky.Sun, sky.Light = day.At(float64(h.hour)*3600+s.within), h.light
		sky.AirMass = sun.QuickAirMass(sky.Sun.Up)
		do(h, &sky)
	}
}

type sums struct{ isotropic, hayDavies, perez, dc float64 }

func (s site) sums(hours []hour, p *Plane, month int) sums {
	var out sums
	s.each(hours, p, func(h *hour, sky *Sky) {
		if month != 0 && h.month != month {
			return
		}
		perez := p.Perez(sky).Total()
		out.isotropic += p.Isotropic(sky).Total() / 1000
		out.hayDavies += p.HayDavies(sky).Total() / 1000
		out.perez += perez / 1000
		out.dc += Power(perez, Faiman(perez, h.temperature, h.wind, FaimanU0, FaimanU1), 1, -0.0035)
	})
	return out
}

func (s station) site(t *testing.T) (site, map[string]*Plane) {
	planes := map[string]*Plane{}
	var at site
	for _, r := range shared.Rows(t, "data/weather/reference-year-sums.csv") {
		if r["file"] != s.name {
			continue
		}
		p := NewPlane(number(t, r["tilt_deg"]), number(t, r["facing_deg"]))
		planes[r["surface"]] = &p
		at = site{sun.Place{Latitude: number(t, r["latitude"]), Longitude: number(t, r["longitude"]), Elevation: number(t, r["elevation_m"])},
			3600 * number(t, r["utc_offset_h"]), 60 * math.Mod(60+number(t, r["sun_shift_min"]), 60)}
	}
	return at, planes
}

// Six stations from the Aleutians to Santiago: year and month sums of the quick
// sun, air mass and sky against the published algorithm and air mass.
func TestYearAndMonthSums(t *testing.T) {
	year, month := worst{}, worst{}
	for _, s := range stations {
		at, planes := s.site(t)
		hours := s.hours(t)
		for _, r := range shared.Rows(t, "data/weather/reference-year-sums.csv") {
			if r["file"] == s.name {
				got := at.sums(hours, planes[r["surface"]], 0)
				year.add("isotropic", got.isotropic, number(t, r["poa_isotropic"]))
				year.add("Hay & Davies", got.hayDavies, number(t, r["poa_haydavies"]))
				year.add("Perez", got.perez, number(t, r["poa_perez"]))
				year.add("dc", got.dc, number(t, r["dc_kwh_per_kwp"]))
			}
		}
		for _, r := range shared.Rows(t, "data/weather/reference-month-sums.csv") {
			if r["file"] == s.name {
				got := at.sums(hours, planes[r["surface"]], whole(r["month"]))
				month.add("Hay & Davies", got.hayDavies, number(t, r["poa_haydavies_kwh_m2"]))
				month.add("Perez", got.perez, number(t, r["poa_perez_kwh_m2"]))
				month.add("dc", got.dc, number(t, r["dc_kwh_per_kwp"]))
			}
		}
	}
	year.within(t, 0.01)
	month.within(t, 0.01)
}

// BenchmarkYearOfHours is sun, plane of array, cell temperature and power for the
// 8,760 hours of a station.
func BenchmarkYearOfHours(b *testing.B) {
	hours := stations[0].hours(b)
	p := NewPlane(30, 180)
	at := site{sun.Place{Latitude: 36.1, Longitude: -79.95, Elevation: 273}, -5 * 3600, 1800}
	b.ReportAllocs()
	total := 0.0
	for b.Loop() {
		at.each(hours, &p, func(h *hour, sky *Sky) {
			g := p.Perez(sky).Total()
			total += Power(g, Faiman(g, h.temperature, h.wind, FaimanU0, FaimanU1), 1, -0.0035)
		})
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/8760, "ns/hour")
}

// BenchmarkYearOfMinutes is sun and plane of array for 525,600 minutes.
func BenchmarkYearOfMinutes(b *testing.B) {
	p, place, total := NewPlane(30, 180), sun.Place{Latitude: 37, Longitude: -8}, 0.0
	b.ReportAllocs()
	for b.Loop() {
		day := sun.NewDay(sun.At(2026, 1, 1, 0), place)
		for n := range 365 {
			sky := Sky{Normal: sun.Extraterrestrial(n+1, sun.SolarConstant), Albedo: 0.2, Light: sun.Irradiance{Global: 500, Beam: 500, Diffuse: 100}}
			walk := day.Walk(30, 60)
			for range 1440 {
				if sky.Sun = walk.Next(); sky.Sun.Up <= 0 {
					continue
				}
				sky.AirMass = sun.QuickAirMass(sky.Sun.Up)
				total += p.Perez(&sky).Total()
			}
			day = day.Next(place)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/525600, "ns/minute")
}

func BenchmarkPerez(b *testing.B) {
	p := NewPlane(30, 180)
	sky := Sky{Sun: sun.Toward(50, 160), Light: sun.Irradiance{Global: 600, Beam: 700, Diffuse: 150}, Normal: 1366, AirMass: 1.55, Albedo: 0.2}
	total := 0.0
	for b.Loop() {
		total += p.Perez(&sky).Total()
	}
}
