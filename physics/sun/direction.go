package sun

import "math"

// Direction points from a place to the sun: a vector of length 1.
type Direction struct{ East, North, Up float64 }

// Toward returns the direction of a zenith angle and azimuth in degrees.
func Toward(zenith, azimuth float64) Direction {
	sinZ, cosZ := math.Sincos(zenith * degree)
	sinA, cosA := math.Sincos(azimuth * degree)
	return Direction{East: sinZ * sinA, North: sinZ * cosA, Up: cosZ}
}

// Zenith returns the angle from straight up in degrees.
func (d Direction) Zenith() float64 {
	return math.Atan2(math.Hypot(d.East, d.North), d.Up) / degree
}

// Azimuth returns the angle clockwise from north in degrees, 0 to 360.
func (d Direction) Azimuth() float64 {
	a := math.Atan2(d.East, d.North) / degree
	if a < 0 {
		a += 360
	}
	return a
}
