package sun

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"ampstead/internal/near"
)

func TestParseTime(t *testing.T) {
	for text, want := range map[string]float64{
		"2000-01-01T12:00:00Z": 2451545, "1999-01-01T00:00:00Z": 2451179.5, "1987-01-27T00:00:00Z": 2446822.5,
		"1988-06-19T12:00:00z": 2447332, "1900-01-01 00:00:00Z": 2415020.5, "1600-12-31T00:00:00Z": 2305812.5,
		"2000-01-01T14:00:00.25+02:00": 2451545 + 0.25/86400, "2000-01-01T05:30:00-06:30": 2451545,
		"2016-12-31T23:59:60Z": 2457754.5, "2024-02-29T00:00:00Z": 2460369.5,
	} {
		got, err := ParseTime(text)
		if err != nil {
			t.Error(err)
		}
		near.Equal(t, text, got.JulianDay(), want, 1e-9)
	}
	for _, text := range []string{"", "2003", "2003-10-17", "2003-10-17T12:30:30", "2003-02-29T00:00:00Z", "2003-13-01T00:00:00Z",
		"2003-10-32T00:00:00Z", "2003-00-10T00:00:00Z", "2003-10-00T00:00:00Z", "2003-10-17T24:00:00Z", "2003-10-17T12:60:00Z",
		"2003-10-17T12:30:61Z", "2003-10-17T12:30:30.Z", "2003-10-17T12:30:30+0700", "2003-10-17T12:30:30+24:00",
		"2003-10-17T12:30:30Zx", "17 Oct 2003", "2003-10-17T1a:30:30Z", "2003-10-17T12:30:30-07:0\xff"} {
		if got, err := ParseTime(text); err == nil {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}

// What the standard library reads, this reads the same; and dates come back.
func FuzzParseTime(f *testing.F) {
	f.Add("2003-10-17T12:30:30-07:00")
	f.Add("2024-02-29T23:59:59.999999Z")
	f.Add("0000-01-01T00:00:00+23:59")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseTime(text)
		want, stdErr := time.Parse(time.RFC3339Nano, text)
		if stdErr != nil {
			return // this takes lower case and second 60 as RFC 3339 does, the standard library does not
		}
		if err != nil {
			if want.UTC().Year() > 0 && len(text) > 19 && text[19] != ',' {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		days := float64(want.Unix()-946728000)/86400 + float64(want.Nanosecond())/86400e9
		near.Equal(t, text, float64(got), days, 1e-9)
	})
}

func TestDateRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.IntRange(-1e6, 1e6).Draw(t, "day")
		seconds := rapid.IntRange(0, 86399).Draw(t, "second")
		year, month, day := date(number)
		at := At(year, month, day, float64(seconds))
		y, m, d, s := at.Date()
		if dayNumber(year, month, day) != number || y != year || m != month || d != day {
			t.Fatalf("day %d is %d-%d-%d, then %d-%d-%d", number, year, month, day, y, m, d)
		}
		same(t, "second", s, float64(seconds), 1e-3)
		if year >= 0 && year <= 9999 {
			back, err := ParseTime(at.String())
			if err != nil || back-at > 1e-8 || at-back > 1e-8 {
				t.Fatalf("%v comes back as %v, %v", at, back, err)
			}
		}
	})
}

func TestDayOfYear(t *testing.T) {
	for text, want := range map[string]int{"2024-12-31T23:59:59Z": 366, "2023-12-31T00:00:00Z": 365, "2024-01-01T00:00:00Z": 1, "2024-03-01T12:00:00Z": 61} {
		if got := instant(t, text).DayOfYear(); got != want {
			t.Errorf("%s is day %d, want %d", text, got, want)
		}
	}
}

// Computed values of the polynomials, and example 10.a of Meeus (measured 47.6 s).
func TestDeltaT(t *testing.T) {
	for _, v := range []struct {
		year, month int
		want, tol   float64
	}{{1985, 2, 54.413, 1e-3}, {1990, 7, 57.43, 0.6}, {2000, 11, 64.11, 5e-3}, {2005, 1, 65.04, 0.4}, {1977, 2, 47.6, 0.2}, {2050, 1, 94.95, 2}, {1940, 6, 24.4, 2.5}} {
		near.Equal(t, "deltaT", DeltaT(At(v.year, v.month, 10, 0)), v.want, v.tol)
	}
}
