package sun

import (
	"math"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// worst keeps the largest relative error of a column.
type worst map[string]float64

func (w worst) add(name string, got, want float64) {
	err := math.Abs(got - want)
	if math.Abs(want) > 1e-9 {
		err /= math.Abs(want)
	}
	if !(err <= w[name]) {
		w[name] = err
	}
}

func (w worst) within(t *testing.T, tol float64) {
	t.Helper()
	if len(w) == 0 {
		t.Error("nothing was compared")
	}
	t.Logf("worst relative errors: %v", w)
	for name, err := range w {
		near.Equal(t, "worst error of "+name, err, 0, tol)
	}
}

// Formulas with the same constants agree to the digits of the table.
func TestClearSkyTable(t *testing.T) {
	w := worst{}
	for _, r := range shared.Rows(t, "data/weather/reference-clear-sky.csv") {
		zenith, elevation := number(t, r["apparent_zenith_deg"]), number(t, r["altitude_m"])
		day := int(number(t, r["day_of_year"]))
		w.add("pressure", Pressure(elevation), number(t, r["pressure_pa"]))
		w.add("Haurwitz", Haurwitz(zenith), number(t, r["haurwitz_ghi_w_m2"]))
		w.add("extraterrestrial 1366.1", Extraterrestrial(day, SolarConstant), number(t, r["extra_1366_1_spencer_w_m2"]))
		w.add("extraterrestrial 1361", Extraterrestrial(day, 1361), number(t, r["extra_1361_spencer_w_m2"]))
		c := Clear{Zenith: zenith, AirMass: AirMass(zenith) * Pressure(elevation) / seaLevel, Normal: Extraterrestrial(day, SolarConstant),
			Elevation: elevation, Turbidity: number(t, r["linke_turbidity"])}
		if r["airmass_rel_kastenyoung"] != "" {
			w.add("air mass", AirMass(zenith), number(t, r["airmass_rel_kastenyoung"]))
		}
		got := Ineichen(c)
		w.add("Ineichen global", got.Global, number(t, r["ineichen_ghi_w_m2"]))
		w.add("Ineichen beam", got.Beam, number(t, r["ineichen_dni_w_m2"]))
		w.add("Ineichen diffuse", got.Diffuse, number(t, r["ineichen_dhi_w_m2"]))
		c.Enhanced = true
		w.add("Ineichen enhanced", Ineichen(c).Global, number(t, r["ineichen_ghi_with_enhancement_w_m2"]))
	}
	w.within(t, 1e-6)
}

func TestErbsTable(t *testing.T) {
	w := worst{}
	for _, r := range shared.Rows(t, "data/weather/reference-erbs.csv") {
		global, zenith := number(t, r["ghi_w_m2"]), number(t, r["zenith_deg"])
		normal := Extraterrestrial(int(number(t, r["day_of_year"])), SolarConstant)
		got := Split(global, zenith, normal)
		w.add("kt", ClearnessIndex(global, zenith, normal), number(t, r["kt"]))
		w.add("diffuse", got.Diffuse, number(t, r["dhi_w_m2"]))
		w.add("beam", got.Beam, number(t, r["dni_w_m2"]))
	}
	w.within(t, 1e-6)
}

// The quick air mass takes a sun without refraction and agrees within 1 % down
// to the horizon.
func TestQuickAirMass(t *testing.T) {
	most := 0.0
	for zenith := 0.0; zenith < 90; zenith += 0.1 {
		slow := AirMass(zenith - Refraction(90-zenith, StandardAir(0)))
		most = math.Max(most, math.Abs(QuickAirMass(math.Cos(zenith*degree))/slow-1))
	}
	t.Logf("worst: %.4f", most)
	near.Equal(t, "worst error of the quick air mass", most, 0, 0.01)
}

// The table folds rise and set into the UT day as the appendix does and then adds
// a day, which misses by up to six minutes; those rows are only held against the
// position of the sun, as all are.
func TestRiseSetTable(t *testing.T) {
	folded := 0
	for _, r := range shared.Rows(t, "data/weather/reference-sunrise-sunset.csv") {
		place := Place{Latitude: number(t, r["latitude"]), Longitude: number(t, r["longitude"])}
		got := RiseSet(instant(t, r["utc_date"]+"T05:00:00Z"), number(t, r["delta_t_s"]), place)
		if risen := got.Course == Rises; risen != (r["sunrise_utc"] != "") {
			t.Errorf("%v: course %d", r, got.Course)
		}
		near.Equal(t, "transit", float64(got.Transit-instant(t, r["transit_utc"]))*daySeconds, 0, 1)
		if got.Course != Rises {
			continue
		}
		for text, at := range map[string]Instant{r["sunrise_utc"]: got.Rise, r["sunset_utc"]: got.Set} {
			near.Equal(t, text+" zenith", Find(at, number(t, r["delta_t_s"]), place, Air{}).Zenith, 90.8333, 0.005)
			if text[:10] != r["utc_date"] {
				folded++
				continue
			}
			near.Equal(t, text, float64(at-instant(t, text))*daySeconds, 0, 1)
		}
	}
	if folded > 60 {
		t.Errorf("%d rows are folded", folded)
	}
}

// Reda & Andreas 2008, and the almanac of the US Naval Observatory for 2015,
// which prints whole minutes.
func TestPublishedRiseAndSet(t *testing.T) {
	denver, beijing := Place{39, -105, 0}, Place{39.917, 116.383, 0}
	for _, v := range []struct {
		place     Place
		date      string
		deltaT    float64
		rise, set string
		tol       float64
	}{
		{Place{Latitude: -35}, "1996-07-05T00:00:00Z", 64, "1996-07-05T07:08:15Z", "1996-07-05T17:01:04Z", 1},
		{Place{Latitude: -35}, "2004-12-04T00:00:00Z", 64, "2004-12-04T04:38:57Z", "2004-12-04T19:02:02Z", 1},
		{Place{Latitude: 35}, "1994-01-02T00:00:00Z", 64, "1994-01-02T07:08:12Z", "1994-01-02T16:59:55Z", 1},
		{Place{39.742476, -105.1786, 1830}, "2003-10-17T12:00:00Z", 67, "2003-10-17T06:12:43-07:00", "2003-10-17T17:18:52-07:00", 1},
		{Place{39.742476, -105.1786, 1830}, "2003-10-16T12:00:00Z", 67, "2003-10-16T06:11:41-07:00", "2003-10-16T17:20:19-07:00", 1}, // printed for the 17th, which ends at 17:00
		{denver, "2015-01-02T12:00:00Z", 68, "2015-01-02T07:19:00-07:00", "2015-01-02T16:49:00-07:00", 31},
		{denver, "2015-04-02T12:00:00Z", 68, "2015-04-02T05:43:00-07:00", "2015-04-02T18:24:00-07:00", 31},
		{denver, "2015-08-02T12:00:00Z", 68, "2015-08-02T05:01:00-07:00", "2015-08-02T19:10:00-07:00", 31},
		{denver, "2015-12-02T12:00:00Z", 68, "2015-12-02T07:01:00-07:00", "2015-12-02T16:38:00-07:00", 31},
		{beijing, "2015-01-02T01:00:00Z", 68, "2015-01-02T07:36:00+08:00", "2015-01-02T17:00:00+08:00", 31},
		{beijing, "2015-08-02T01:00:00Z", 68, "2015-08-02T05:13:00+08:00", "2015-08-02T19:28:00+08:00", 31},
	} {
		got := RiseSet(instant(t, v.date), v.deltaT, v.place)
		near.Equal(t, v.date+" rise", float64(got.Rise-instant(t, v.rise))*daySeconds, 0, v.tol)
		near.Equal(t, v.date+" set", float64(got.Set-instant(t, v.set))*daySeconds, 0, v.tol)
	}
}

// At the solstice of December the sun stays down north of 67.4° and up south of
// 65.7° S.
func TestPolarCourses(t *testing.T) {
	at := instant(t, "2026-12-21T12:00:00Z")
	for latitude, want := range map[float64]Course{67.2: Rises, 67.5: StaysOff, -65.6: Rises, -65.9: StaysUp, 90: StaysOff, -90: StaysUp} {
		if got := RiseSet(at, 70, Place{Latitude: latitude}); got.Course != want {
			t.Errorf("at %g° the course is %d, want %d", latitude, got.Course, want)
		}
	}
}

// Worked examples of Duffie & Beckman, sections 1.5 to 1.10, and the table of
// daily extraterrestrial irradiation, recomputed.
func TestHandbookDays(t *testing.T) {
	near.Equal(t, "equation of time, 3 February", EquationOfTime(34), -13.49, 0.01)
	near.Equal(t, "declination, 13 February", Declination(44), -13.95, 0.005)
	near.Equal(t, "sunset of 16 March at 43° N", SunsetAngle(43, Declination(75)), 87.74, 0.01)
	days := []int{17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344}
	for latitude, month := range map[float64][]float64{
		0:     {36.31, 37.56, 37.97, 36.84, 34.81, 33.52, 33.91, 35.64, 37.14, 37.29, 36.36, 35.70},
		43:    {13.39, 18.85, 26.07, 33.81, 39.44, 41.78, 40.51, 35.85, 28.72, 20.85, 14.61, 11.92},
		69.7:  {0, 2.91, 10.90, 23.09, 35.16, 42.10, 38.72, 27.61, 15.07, 5.02, 0.24, 0},
		-33.4: {43.28, 39.19, 33.10, 25.66, 19.55, 16.74, 17.87, 22.75, 29.77, 36.78, 41.90, 44.12},
	} {
		for k, want := range month {
			near.Equal(t, "MJ/m² of the day", DailyExtraterrestrial(latitude, days[k], 1367)*0.0036, want, 0.0051)
		}
	}
}

// Values of the daily forms (recomputed from the remembered formulas).
func TestDailyDiffuse(t *testing.T) {
	for kt, want := range map[float64][2]float64{0.2: {0.963, 0.961}, 0.35: {0.833, 0.822}, 0.5: {0.569, 0.608}, 0.65: {0.251, 0.336}, 0.8: {0.143, 0.175}} {
		near.Equal(t, "winter", DailyDiffuse(kt, 70), want[0], 5e-4)
		near.Equal(t, "summer", DailyDiffuse(kt, 100), want[1], 5e-4)
	}
	for _, sunset := range []float64{70, 100} {
		near.Equal(t, "below the range", MonthlyDiffuse(0.1, sunset), MonthlyDiffuse(0.3, sunset), 0)
		if MonthlyDiffuse(0.6, sunset) >= MonthlyDiffuse(0.5, sunset) {
			t.Error("a clearer month has more diffuse light")
		}
	}
}
