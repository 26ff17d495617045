package sun

import (
	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// SunPosition answers where the sun stands.
var SunPosition = &figure.Figure{
	Name:    "sun-position",
	Answers: "Where does the sun stand at this place and time?",
	Inputs: []figure.Input{latitude, longitude, when, height,
		{Name: "pressure", Dim: quantity.Pascals, Doc: "of the air; below 2000 Pa it counts as hPa; 0 takes the standard atmosphere's at the elevation", Default: "0 hPa"},
		{Name: "temperature", Dim: quantity.Celsius, Doc: "of the air", Default: "12 °C"}, deltaTText},
	Outputs: []figure.Output{
		{Key: "zenith_deg", Dim: quantity.Degrees, Doc: "angle from straight up, without refraction"},
		{Key: "azimuth_deg", Dim: quantity.Degrees, Doc: "clockwise from north"},
		{Key: "apparent_elevation_deg", Dim: quantity.Degrees, Doc: "above the horizon as seen, with refraction"},
		{Key: "apparent_zenith_deg", Dim: quantity.Degrees, Doc: "angle from straight up as seen, with refraction"},
	},
	Equation: "L, B, R by sums of A·cos(B + C·t); nutation by 63 terms; right ascension and declination; local hour angle from sidereal time; " +
		"parallax; sin(elevation) = sin φ·sin δ + cos φ·cos δ·cos H; refraction = pressure/1010 hPa · 283/(273 + temperature) · 1.02° / (60·tan(e + 10.3/(e + 5.11)))",
	Source:  source.RedaAndreas,
	Range:   "years -2000 to 6000 within 0.0003°; this reads years 0 to 9999; refraction near the horizon varies by 0.1° and more with the weather",
	Compute: computePosition,
	Checks: []figure.Check{
		check(source.RedaAndreas, "worked example, elevation 39.872046° without refraction", "zenith_deg", 90-39.872046, 1e-5, workedExample...),
		check(source.RedaAndreas, "worked example, azimuth", "azimuth_deg", 194.340241, 1e-5, workedExample...),
		check(source.RedaAndreas, "worked example, elevation", "apparent_elevation_deg", 39.888378, 1e-5, workedExample...),
		check(source.RedaAndreas, "worked example, zenith", "apparent_zenith_deg", 50.11162, 1e-5, workedExample...),
		check(source.SunTables, "southern summer forenoon", "zenith_deg", 76.6053841, 1e-5,
			"latitude=24.628 °S", "longitude=65.3231 °E", "time=2040-09-30T12:35:17Z", "elevation=100 m"),
		check(source.SunTables, "below the horizon, in the west", "azimuth_deg", 283.293053, 1e-4,
			"latitude=24.7629", "longitude=143.5839", "time=2025-10-14T11:13:32Z", "elevation=1879 m", "temperature=24.5 °C"),
	},
}

var workedExample = []string{"latitude=39.742476 °N", "longitude=105.1786 °W", "time=2003-10-17T12:30:30-07:00", "elevation=1830.14 m",
	"pressure=820 mbar", "temperature=11 °C", "delta-t=67 s"}

func computePosition(a figure.Args) (figure.Results, error) {
	at, t, err := scene(a)
	if err != nil {
		return nil, err
	}
	deltaT, err := readDeltaT(a, t)
	if err != nil {
		return nil, err
	}
	air := Air{Pressure: readPressure(a.Num("pressure"), at.Elevation), Temperature: a.Num("temperature")}
	if err := inside(a, "temperature", -90, 70); err != nil {
		return nil, err
	}
	p := Find(t, deltaT, at, air)
	return figure.Results{"zenith_deg": p.Zenith, "azimuth_deg": p.Azimuth, "apparent_elevation_deg": p.Elevation, "apparent_zenith_deg": 90 - p.Elevation}, nil
}

// readPressure helps out where nothing was said, or where the number can only be
// meant in hPa: no place on land is below 30,000 Pa.
func readPressure(pascals, elevation float64) float64 {
	switch {
	case pascals <= 0:
		return Pressure(elevation)
	case pascals < 2000:
		return 100 * pascals
	}
	return pascals
}

// SunTimes answers when the sun rises and sets.
var SunTimes = &figure.Figure{
	Name:    "sun-times",
	Answers: "When does the sun rise, stand highest and set?",
	Inputs:  []figure.Input{latitude, longitude, when, deltaTText},
	Outputs: []figure.Output{
		{Key: "sunrise", Doc: "upper rim at the horizon, UTC; none in polar day and night"},
		{Key: "transit", Doc: "highest, UTC; on the UT day of the time given"},
		{Key: "sunset", Doc: "upper rim at the horizon, UTC; none in polar day and night"},
		{Key: "day_length_h", Dim: quantity.Hours, Doc: "from rise to set; 24 h in polar day"},
	},
	Equation: "cos H₀ = (sin(-0.8333°) - sin φ·sin δ)/(cos φ·cos δ); rise and set = transit ∓ H₀, improved once with the sun interpolated to that time",
	Source:   source.RedaAndreas,
	Range:    "level horizon; seconds, but minutes where the sun grazes the horizon",
	Compute:  computeTimes,
	Checks: []figure.Check{
		exact("35° S", "sunrise", "1996-07-05T07:08:15Z", "latitude=-35", "longitude=0", "time=1996-07-05T12:00:00Z", "delta-t=64 s"),
		exact("35° S", "sunset", "1996-07-05T17:01:04Z", "latitude=-35", "longitude=0", "time=1996-07-05T12:00:00Z", "delta-t=64 s"),
		exact("35° S, summer", "sunrise", "2004-12-04T04:38:57Z", "latitude=-35", "longitude=0", "time=2004-12-04T12:00:00Z", "delta-t=64 s"),
		check(source.AlmanacRise, "39° N 105° W, 2 April 2015: 05:43 to 18:24", "day_length_h", 12+41.0/60, 1.0/60,
			"latitude=39", "longitude=-105", "time=2015-04-02T12:00:00-07:00"),
	},
}

func exact(note, out, want string, in ...string) figure.Check {
	return figure.Check{Source: source.RedaAndreas, Note: note, In: in, Output: out, Expected: want}
}

func computeTimes(a figure.Args) (figure.Results, error) {
	at, t, err := scene(a)
	if err != nil {
		return nil, err
	}
	deltaT, err := readDeltaT(a, t)
	if err != nil {
		return nil, err
	}
	s := RiseSet(t, deltaT, at)
	out := figure.Results{"sunrise": "none", "transit": s.Transit.String(), "sunset": "none", "day_length_h": 0.0}
	switch s.Course {
	case Rises:
		out["sunrise"], out["sunset"], out["day_length_h"] = s.Rise.String(), s.Set.String(), float64(s.Set-s.Rise)*24
	case StaysUp:
		out["day_length_h"] = 24.0
	}
	return out, nil
}
