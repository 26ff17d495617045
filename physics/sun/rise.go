package sun

import "math"

// Course is the way the sun goes on a day.
type Course int8

// The courses of a day.
const (
	Rises    Course = iota // it rises and sets
	StaysUp                // polar day
	StaysOff               // polar night
)

// Times are when the sun rises, stands highest and sets; with another course
// than Rises only Transit holds.
type Times struct {
	Rise, Transit, Set Instant
	Course             Course
}

// horizon is the elevation in degrees at which the upper rim shows: half a disc
// and the refraction at the horizon.
const horizon = -0.8333

// RiseSet returns the times around the transit that falls on t's UT day, by
// appendix A.2 of Reda & Andreas 2008. deltaT as for Find. Rise or set may fall on
// the UT day before or after. Within seconds, but near polar day and night, where
// the sun grazes the horizon, within minutes.
func RiseSet(t Instant, deltaT float64, at Place) Times {
	day := Instant(math.Floor(float64(t)+0.5) - 0.5)
	s := newStretch(day, deltaT, at)
	noon := frac((s.right[1] - s.east - s.sidereal) / (2 * math.Pi))
	rightAscension, _ := s.sunAt(noon)
	out := Times{Transit: day + Instant(noon-s.hourAngle(noon, rightAscension)/(2*math.Pi))}

	cos := (math.Sin(horizon*degree) - s.sinLat*math.Sin(s.dec[1])) / (s.cosLat * math.Cos(s.dec[1]))
	switch {
	case cos < -1:
		out.Course = StaysUp
	case cos > 1:
		out.Course = StaysOff
	default:
		half := math.Acos(cos) / (2 * math.Pi)
		out.Rise, out.Set = day+Instant(s.crossing(noon-half)), day+Instant(s.crossing(noon+half))
	}
	return out
}

// stretch is the sun around a UT day: at the starts, in terrestrial time, of the
// day before, the day and the day after.
type stretch struct {
	right, dec             [3]float64
	sidereal, east, deltaT float64 // rad, rad, days
	sinLat, cosLat         float64
}

func newStretch(day Instant, deltaT float64, at Place) stretch {
	s := stretch{east: at.Longitude * degree, deltaT: deltaT / daySeconds, sidereal: full.see(day, deltaT).sidereal}
	s.sinLat, s.cosLat = math.Sincos(at.Latitude * degree)
	for k := range s.right {
		e := full.see(day+Instant(k-1), 0)
		s.right[k], s.dec[k] = e.rightAscension, e.declination
	}
	return s
}

// sunAt interpolates right ascension and declination at a fraction of the day.
func (s *stretch) sunAt(m float64) (right, dec float64) {
	n := m + s.deltaT
	between := func(v [3]float64) float64 {
		a, b := math.Remainder(v[1]-v[0], 2*math.Pi), math.Remainder(v[2]-v[1], 2*math.Pi)
		return v[1] + n*(a+b+(b-a)*n)/2
	}
	return between(s.right), between(s.dec)
}

// hourAngle at a fraction of the day, -π to π.
func (s *stretch) hourAngle(m, right float64) float64 {
	return math.Remainder(s.sidereal+360.985647*degree*m+s.east-right, 2*math.Pi)
}

// crossing improves the fraction of the day at which the sun crosses the horizon
// by one step along its slope.
func (s *stretch) crossing(m float64) float64 {
	right, dec := s.sunAt(m)
	sinH, cosH := math.Sincos(s.hourAngle(m, right))
	sinDec, cosDec := math.Sincos(dec)
	elevation := math.Asin(s.sinLat*sinDec + s.cosLat*cosDec*cosH)
	return m + (elevation-horizon*degree)/(2*math.Pi*cosDec*s.cosLat*sinH)
}
