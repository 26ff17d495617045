package sun

import "math"

// Place is a point on the Earth: degrees north, degrees east, metres above the
// sea.
type Place struct{ Latitude, Longitude, Elevation float64 }

// Air is what bends the light: pressure in Pa and temperature in °C.
type Air struct{ Pressure, Temperature float64 }

// Position is where the sun stands, in degrees.
type Position struct {
	Zenith    float64 // from straight up, without refraction
	Elevation float64 // above the horizon as seen, with refraction
	Azimuth   float64 // clockwise from north, 0 to 360
}

// Find returns the sun's position by the solar position algorithm of Reda &
// Andreas (Solar Energy 76, 2004; revised 2008), which holds within 0.0003° for
// the years -2000 to 6000. deltaT is terrestrial minus universal time in seconds,
// as DeltaT returns it. About 4 µs a call; Day is the quick one.
func Find(t Instant, deltaT float64, at Place, air Air) Position {
	e := full.see(t, deltaT)
	hour := e.sidereal + at.Longitude*degree - e.rightAscension
	dec, hour := topocentric(e, hour, at)

	sinLat, cosLat := math.Sincos(at.Latitude * degree)
	sinDec, cosDec := math.Sincos(dec)
	sinH, cosH := math.Sincos(hour)
	up := sinLat*sinDec + cosLat*cosDec*cosH
	d := Direction{East: -cosDec * sinH, North: cosLat*sinDec - sinLat*cosDec*cosH, Up: up}
	elevation := math.Atan2(up, math.Hypot(d.East, d.North)) / degree
	return Position{Zenith: 90 - elevation, Elevation: elevation + Refraction(elevation, air), Azimuth: d.Azimuth()}
}

// topocentric moves the declination and the hour angle (rad) from the centre of
// the Earth to a place on it (step 3.12 of Reda & Andreas 2008).
func topocentric(e ephemeris, hour float64, at Place) (dec, localHour float64) {
	const flattening, radius = 0.99664719, 6378140.0
	sinLat, cosLat := math.Sincos(at.Latitude * degree)
	sinU, cosU := math.Sincos(math.Atan2(flattening*sinLat, cosLat))
	x := cosU + at.Elevation/radius*cosLat
	y := flattening*sinU + at.Elevation/radius*sinLat
	sinXi := math.Sin(8.794 / 3600 * degree / e.astronomical)
	sinH, cosH := math.Sincos(hour)
	sinDec, cosDec := math.Sincos(e.declination)
	flat := cosDec - x*sinXi*cosH
	shift := math.Atan2(-x*sinXi*sinH, flat)
	dec = math.Atan2((sinDec-y*sinXi)*math.Cos(shift), flat)
	return dec, hour - shift
}

// Refraction returns by how many degrees the air lifts the sun above its true
// elevation in degrees (step 3.14 of Reda & Andreas 2008): none while the upper
// rim is below the horizon.
func Refraction(elevation float64, air Air) float64 {
	const rim, horizon = 0.26667, 0.5667
	if elevation < -(rim + horizon) {
		return 0
	}
	bend := 1.02 / (60 * math.Tan((elevation+10.3/(elevation+5.11))*degree))
	return air.Pressure / 101000 * 283 / (273 + air.Temperature) * bend
}
