package sun

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
)

// Equinoxes and solstices: Meeus, Astronomical Algorithms, 2nd ed., table 27, in
// terrestrial time; and universal times of 2024 to 2027, computed elsewhere.
func TestSeasons(t *testing.T) {
	terrestrial := map[string]float64{
		"2000-03-20T07:36:19Z": 0, "2005-03-20T12:34:29Z": 0, "2000-06-21T01:48:46Z": 90, "2005-06-21T06:47:12Z": 90,
		"2000-09-22T17:28:40Z": 180, "2005-09-22T22:24:14Z": 180, "2000-12-21T13:38:30Z": 270, "2005-12-21T18:36:01Z": 270,
	}
	for text, longitude := range terrestrial {
		// One second of time is 1.1e-5°; the full theory of the table differs by some.
		near.Equal(t, text, math.Remainder(full.see(instant(t, text), 0).apparent/degree-longitude, 360), 0, 2e-4)
	}
	universal := map[string]float64{
		"2024-03-20T03:06:20Z": 0, "2024-12-21T09:20:21Z": 270, "2025-06-21T02:42:09Z": 90, "2025-09-22T18:19:13Z": 180,
		"2026-03-20T14:45:47Z": 0, "2026-06-21T08:24:20Z": 90, "2027-09-23T06:01:33Z": 180, "2027-12-22T02:42:01Z": 270,
	}
	for text, longitude := range universal {
		at := instant(t, text)
		near.Equal(t, text, math.Remainder(full.see(at, DeltaT(at)).apparent/degree-longitude, 360), 0, 1.2e-4)
	}
}

// Meeus, example 25.a: 13 October 1992, 0 h TD, by a low-precision theory that
// holds within 0.01°.
func TestLowPrecisionExample(t *testing.T) {
	e := full.see(Instant(2448908.5-j2000), 0)
	near.Equal(t, "apparent longitude", math.Remainder(e.apparent/degree-(199+54.0/60+32.0/3600), 360), 0, 3e-3)
	near.Equal(t, "distance", e.astronomical, 0.99766, 6e-5)
	near.Equal(t, "right ascension", math.Remainder(e.rightAscension/degree-15*(13+13.0/60+31.4/3600), 360), 0, 3e-3)
	near.Equal(t, "declination", e.declination/degree, -(7 + 47.0/60 + 6.0/3600), 2e-3)
}

// At transit the sun stands as far from overhead as the place from the latitude
// the sun is over, but for parallax.
func TestNoonZenith(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := Place{Latitude: rapid.Float64Range(-89, 89).Draw(t, "latitude"), Longitude: rapid.Float64Range(-180, 180).Draw(t, "longitude")}
		at := At(2020, 1, 1, 0) + Instant(rapid.IntRange(0, 20000).Draw(t, "day"))
		noon := RiseSet(at, DeltaT(at), place).Transit
		e := full.see(noon, DeltaT(noon))
		same(t, "zenith", Find(noon, DeltaT(noon), place, Air{}).Zenith, math.Abs(place.Latitude-e.declination/degree), 0.003)
	})
}
