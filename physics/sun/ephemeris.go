package sun

import "math"

const degree = math.Pi / 180 // rad

// ephemeris is the sun as seen from the centre of the Earth. Angles in radians.
type ephemeris struct {
	sidereal       float64 // apparent, at Greenwich
	rightAscension float64
	declination    float64
	astronomical   float64 // distance in AU
	nutation       float64 // in longitude
	obliquity      float64 // true
	apparent       float64 // apparent longitude
	latitude       float64 // geocentric
	time           float64 // thousands of Julian years of terrestrial time from 2000
}

// theory is how many terms of the published series are summed.
type theory struct {
	longitude, latitude, distance [][]term
	wobbles                       []wobble
}

// full is the published algorithm. short leaves out what the sun's place does
// not show at 0.002°, for the years 1900 to 2100.
var (
	full  = theory{earthLongitude, earthLatitude, earthDistance, wobbles}
	short = theory{
		longitude: [][]term{earthLongitude[0][:20], earthLongitude[1][:3], earthLongitude[2][:1]},
		distance:  [][]term{earthDistance[0][:3], earthDistance[1][:1]},
		wobbles:   wobbles[:2],
	}
)

// see returns the sun at an instant; deltaT in seconds. Steps 3.1 to 3.10 of
// Reda & Andreas 2008.
func (th *theory) see(t Instant, deltaT float64) ephemeris {
	ut := float64(t) / 36525
	jce := (float64(t) + deltaT/86400) / 36525
	e := ephemeris{time: jce / 10}
	e.astronomical = sum(th.distance, e.time)
	e.latitude = -sum(th.latitude, e.time)
	psi, eps := nutation(th.wobbles, jce)
	e.nutation, e.obliquity = psi, meanObliquity(e.time/10)+eps
	aberration := -20.4898 / 3600 * degree / e.astronomical
	e.apparent = sum(th.longitude, e.time) + math.Pi + psi + aberration

	sinL, cosL := math.Sincos(e.apparent)
	sinE, cosE := math.Sincos(e.obliquity)
	sinB, cosB := math.Sincos(e.latitude)
	e.rightAscension = math.Atan2(sinL*cosE-sinB/cosB*sinE, cosL)
	e.declination = math.Asin(sinB*cosE + cosB*sinE*sinL)
	turn := math.Mod(0.98564736629*float64(t), 360) + 360*frac(float64(t))
	mean := 280.46061837 + turn + ut*ut*(0.000387933-ut/38710000)
	e.sidereal = mean*degree + psi*cosE
	return e
}

func frac(x float64) float64 { return x - math.Floor(x) }

// sum adds up a series of terms over the powers of t.
func sum(powers [][]term, t float64) float64 {
	total := 0.0
	for k := len(powers) - 1; k >= 0; k-- {
		part := 0.0
		for i := range powers[k] {
			w := &powers[k][i]
			part += w.amplitude * math.Cos(w.phase+w.frequency*t)
		}
		total = total*t + part
	}
	return total * 1e-8
}

// nutation in longitude and obliquity, in radians; t in Julian centuries.
func nutation(wobbles []wobble, t float64) (psi, eps float64) {
	d := (297.85036 + t*(445267.111480+t*(-0.0019142+t/189474))) * degree
	m := (357.52772 + t*(35999.050340+t*(-0.0001603-t/300000))) * degree
	mm := (134.96298 + t*(477198.867398+t*(0.0086972+t/56250))) * degree
	f := (93.27191 + t*(483202.017538+t*(-0.0036825+t/327270))) * degree
	node := (125.04452 + t*(-1934.136261+t*(0.0020708+t/450000))) * degree
	for i := range wobbles {
		w := &wobbles[i]
		sin, cos := math.Sincos(w.d*d + w.m*m + w.mm*mm + w.f*f + w.node*node)
		psi += (w.sin + w.sinRate*t) * sin
		eps += (w.cos + w.cosRate*t) * cos
	}
	const unit = degree / 36000000
	return psi * unit, eps * unit
}

// obliquityTerms are the powers of the mean obliquity in seconds of arc.
var obliquityTerms = [...]float64{84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45}

// meanObliquity in radians; u in tens of thousands of Julian years.
func meanObliquity(u float64) float64 {
	total := 0.0
	for k := len(obliquityTerms) - 1; k >= 0; k-- {
		total = total*u + obliquityTerms[k]
	}
	return total / 3600 * degree
}
