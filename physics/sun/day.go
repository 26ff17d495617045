package sun

import "math"

// Day is the sun over one day from any instant at one place: the short theory at
// both ends, straight lines between. Direction and zenith agree with Find within
// 0.002° anywhere on Earth for the years 1950 to 2100.
type Day struct {
	start          Instant
	hour, hourRate float64 // local hour angle at the start in rad, rad/s
	sinDec, cosDec float64 // at the start
	decRate        float64 // rad/s
	site           site
	end            ephemeris // a day after the start
}

const daySeconds = 86400.0

// NewDay prepares the 24 hours that start at an instant.
func NewDay(start Instant, at Place) Day {
	return newDay(start, at, short.see(start, DeltaT(start)))
}

// Next prepares the 24 hours after d, at the same place or another.
func (d *Day) Next(at Place) Day { return newDay(d.start+1, at, d.end) }

func newDay(start Instant, at Place, first ephemeris) Day {
	d := Day{start: start, end: short.see(start+1, DeltaT(start))}
	d.site.sinLat, d.site.cosLat = math.Sincos(at.Latitude * degree)
	d.sinDec, d.cosDec = math.Sincos(first.declination)
	d.decRate = (d.end.declination - first.declination) / daySeconds
	d.hour = first.sidereal + at.Longitude*degree - first.rightAscension
	gain := d.end.sidereal - d.end.rightAscension - (first.sidereal - first.rightAscension)
	d.hourRate = (2*math.Pi + math.Remainder(gain, 2*math.Pi)) / daySeconds
	d.site.parallax = 8.794 / 3600 * degree / first.astronomical
	return d
}

// Start returns the instant the day begins at.
func (d *Day) Start() Instant { return d.start }

// At returns the direction of the sun, without refraction, some seconds after
// the start of the day (0 to 86,400). The declination moves less than 0.007 rad in
// a day, so that the square of that is enough: 6e-8 rad are left.
func (d *Day) At(seconds float64) Direction {
	sin, cos := math.Sincos(d.hour + d.hourRate*seconds)
	x := d.decRate * seconds
	half := x * x / 2
	return d.site.toward(sin, cos, d.sinDec*(1-half)+d.cosDec*x, d.cosDec*(1-half)-d.sinDec*x)
}

// site is what of a place turns the sun into its frame.
type site struct {
	sinLat, cosLat float64
	parallax       float64 // rad, of a sun on the horizon
}

// toward turns hour angle and declination into a direction; the step down by the
// parallax is followed by one that restores the length.
func (s *site) toward(sinH, cosH, sinDec, cosDec float64) Direction {
	c := cosDec * cosH
	up := s.sinLat*sinDec + s.cosLat*c
	keep := 1 + s.parallax*up
	return Direction{East: -cosDec * sinH * keep, North: (s.cosLat*sinDec - s.sinLat*c) * keep, Up: (up - s.parallax) * keep}
}

// Walk goes through a day in equal steps without trigonometry: hour angle and
// declination are turned by the same small angle each time.
type Walk struct {
	site
	sin, cos               float64 // of the hour angle
	sinStep, cosStep       float64
	sinDec, cosDec         float64
	sinDecStep, cosDecStep float64
}

// Walk starts at some seconds of the day and goes on by step seconds.
func (d *Day) Walk(from, step float64) Walk {
	w := Walk{site: d.site}
	w.sin, w.cos = math.Sincos(d.hour + d.hourRate*from)
	w.sinStep, w.cosStep = math.Sincos(d.hourRate * step)
	sin, cos := math.Sincos(d.decRate * from)
	w.sinDec, w.cosDec = d.sinDec*cos+d.cosDec*sin, d.cosDec*cos-d.sinDec*sin
	w.sinDecStep, w.cosDecStep = math.Sincos(d.decRate * step)
	return w
}

// Next returns the direction of the sun and steps on.
func (w *Walk) Next() Direction {
	d := w.toward(w.sin, w.cos, w.sinDec, w.cosDec)
	w.sin, w.cos = w.sin*w.cosStep+w.cos*w.sinStep, w.cos*w.cosStep-w.sin*w.sinStep
	w.sinDec, w.cosDec = w.sinDec*w.cosDecStep+w.cosDec*w.sinDecStep, w.cosDec*w.cosDecStep-w.sinDec*w.sinDecStep
	return d
}
