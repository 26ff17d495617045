package sun

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// The worked example of Reda & Andreas 2008, appendix A.5, to its printed digits.
func TestWorkedExample(t *testing.T) {
	at := instant(t, "2003-10-17T12:30:30-07:00")
	near.Equal(t, "Julian day", at.JulianDay(), 2452930.312847, 1e-6)
	e := full.see(at, 67)
	near.Equal(t, "Julian millennium", e.time, 0.0037927819916852, 1e-12)
	for _, v := range []struct {
		name            string
		got, want, last float64
	}{
		{"longitude", e.apparent/degree - e.nutation/degree + 20.4898/3600/e.astronomical, 204.0182616917, 1e-9},
		{"latitude", e.latitude / degree, 0.0001011219, 1e-10},
		{"distance", e.astronomical, 0.9965422974, 1e-10},
		{"nutation in longitude", e.nutation / degree, -0.00399840, 1e-8},
		{"mean obliquity", meanObliquity(e.time/10) / degree * 3600, 84379.672625, 1e-6},
		{"true obliquity", e.obliquity / degree, 23.440465, 1e-6},
		{"apparent longitude", e.apparent / degree, 204.0085519281, 1e-9},
		{"right ascension", e.rightAscension/degree + 360, 202.227408, 1e-6},
		{"declination", e.declination / degree, -9.31434, 1e-5},
		{"sidereal time", e.sidereal / degree, 318.511910, 1e-6},
	} {
		got := v.want + math.Remainder(v.got-v.want, 360)
		near.Equal(t, v.name, got, v.want, v.last)
	}
	place := Place{39.742476, -105.1786, 1830.14}
	dec, hour := topocentric(e, e.sidereal+place.Longitude*degree-e.rightAscension, place)
	near.Equal(t, "topocentric declination", dec/degree, -9.316179, 1e-6)
	near.Equal(t, "topocentric hour angle", math.Remainder(hour/degree, 360), 11.10627, 1e-5)
	p := Find(at, 67, place, Air{82000, 11})
	near.Equal(t, "refraction", p.Elevation+p.Zenith-90, 0.016332, 1e-6)
	near.Equal(t, "zenith", 90-p.Elevation, 50.11162, 1e-5)
	near.Equal(t, "azimuth", p.Azimuth, 194.340241, 1e-6)
}

// Every row of a table over the globe and 1985 to 2050, made with an
// independent program.
func TestPositionOverTheGlobe(t *testing.T) {
	var worst, worstAzimuth, worstApparent, worstDay float64
	for _, r := range shared.Rows(t, "data/weather/reference-sun-position.csv") {
		at := instant(t, r["utc"])
		place := Place{number(t, r["latitude"]), number(t, r["longitude"]), number(t, r["elevation_m"])}
		air := Air{number(t, r["pressure_pa"]), number(t, r["temperature_c"])}
		p := Find(at, number(t, r["delta_t_s"]), place, air)
		zenith, azimuth := number(t, r["zenith_deg"]), number(t, r["azimuth_deg"])
		sin := math.Sin(zenith * degree)
		worst = math.Max(worst, math.Abs(p.Zenith-zenith))
		worstApparent = math.Max(worstApparent, math.Abs(90-p.Elevation-number(t, r["apparent_zenith_deg"])))
		worstAzimuth = math.Max(worstAzimuth, math.Abs(math.Remainder(p.Azimuth-azimuth, 360))*sin)
		near.Equal(t, r["utc"]+" deltaT", DeltaT(at), number(t, r["delta_t_s"]), 1e-3)
		worstDay = math.Max(worstDay, apart(dayAt(at, place), Toward(zenith, azimuth)))
	}
	t.Logf("worst: zenith %.2g°, apparent zenith %.2g°, azimuth along the circle %.2g°, short theory %.2g°", worst, worstApparent, worstAzimuth, worstDay)
	near.Equal(t, "worst zenith", worst, 0, 2e-6)
	near.Equal(t, "worst apparent zenith", worstApparent, 0, 2e-6)
	near.Equal(t, "worst azimuth", worstAzimuth, 0, 2e-6)
	near.Equal(t, "worst of the short theory", worstDay, 0, 0.002)
}

// dayAt takes an instant from the middle of its UT day.
func dayAt(t Instant, at Place) Direction {
	start := Instant(math.Floor(float64(t)) + 0.1)
	d := NewDay(start, at)
	return d.At(float64(t-start) * daySeconds)
}

// apart is the angle between two directions in degrees.
func apart(a, b Direction) float64 {
	x, y, z := a.North*b.Up-a.Up*b.North, a.Up*b.East-a.East*b.Up, a.East*b.North-a.North*b.East
	return math.Atan2(math.Sqrt(x*x+y*y+z*z), a.East*b.East+a.North*b.North+a.Up*b.Up) / degree
}

// The short theory stays within 0.01° of the published algorithm everywhere and
// at all times; the bound tested is what it really does.
func TestDayAgreesWithThePublishedAlgorithm(t *testing.T) {
	worst := 0.0
	for k := range 6000 {
		v := float64(k)
		at := At(1950, 1, 1, math.Mod(v*0.6180339887, 1)*daySeconds*365.25*150)
		place := Place{Latitude: math.Asin(2*math.Mod(v*0.7548776662, 1)-1) / degree, Longitude: math.Mod(v*0.5698402910, 1)*360 - 180}
		start := at - Instant(math.Mod(v*0.3247179572, 1))
		d := NewDay(start, place)
		p := Find(at, DeltaT(at), place, Air{})
		worst = math.Max(worst, apart(d.At(float64(at-start)*daySeconds), Toward(p.Zenith, p.Azimuth)))
	}
	t.Logf("worst of 6,000 places and instants from 1950 to 2100: %.4f°", worst)
	near.Equal(t, "worst", worst, 0, 0.002)
}

// Walking and looking at any one second give the same.
func TestWalkIsAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := Place{Latitude: rapid.Float64Range(-90, 90).Draw(t, "latitude"), Longitude: rapid.Float64Range(-180, 180).Draw(t, "longitude")}
		d := NewDay(Instant(rapid.Float64Range(-1e4, 3e4).Draw(t, "start")), place)
		from, step := rapid.Float64Range(0, 600).Draw(t, "from"), rapid.Float64Range(1, 600).Draw(t, "step")
		w := d.Walk(from, step)
		for k := range 140 {
			got, want := w.Next(), d.At(from+float64(k)*step)
			same(t, "angle", apart(got, want), 0, 5e-6)
			same(t, "length", math.Sqrt(got.East*got.East+got.North*got.North+got.Up*got.Up), 1, 1e-8)
		}
		next, fresh := d.Next(place), NewDay(d.Start()+1, place)
		same(t, "the next day", apart(next.At(1000), fresh.At(1000)), 0, 1e-6)
	})
}

// Zenith and azimuth of a direction are those it was made of.
func TestDirectionRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zenith, azimuth := rapid.Float64Range(0.001, 179.999).Draw(t, "zenith"), rapid.Float64Range(0, 359.999).Draw(t, "azimuth")
		d := Toward(zenith, azimuth)
		same(t, "zenith", d.Zenith(), zenith, 1e-9)
		same(t, "azimuth", math.Remainder(d.Azimuth()-azimuth, 360), 0, 1e-9)
	})
}

func TestNoRefractionFromBelow(t *testing.T) {
	if r := Refraction(-0.9, Air{101325, 10}); r != 0 {
		t.Errorf("the sun is down and lifted by %g°", r)
	}
	near.Equal(t, "at the horizon", Refraction(0, Air{101000, 10}), 0.483, 1e-3)
}

func BenchmarkFind(b *testing.B) {
	b.ReportAllocs()
	t := At(2026, 6, 1, 0)
	for b.Loop() {
		t = t.Add(3600)
		Find(t, 70, Place{37, -8, 20}, Air{101325, 12})
	}
}

func BenchmarkNewDay(b *testing.B) {
	b.ReportAllocs()
	place := Place{37, -8, 20}
	d := NewDay(0, place)
	for b.Loop() {
		d = d.Next(place)
	}
}

func BenchmarkYearOfMinutes(b *testing.B) {
	b.ReportAllocs()
	place, total := Place{37, -8, 20}, 0.0
	for b.Loop() {
		d := NewDay(At(2026, 1, 1, 0), place)
		for range 365 {
			w := d.Walk(30, 60)
			for range 1440 {
				total += w.Next().Up
			}
			d = d.Next(place)
		}
	}
	if total == 0 {
		b.Fatal("no sun")
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/525600, "ns/minute")
}
