package sun

// DeltaT returns terrestrial minus universal time in seconds by the polynomials
// of Espenak & Meeus, which run a few seconds high after 2017: that moves the sun
// by less than 0.0001°. Before 1961 and after 2150 it is their long parabola,
// within 15 s of the polynomials from 1900 on.
func DeltaT(t Instant) float64 {
	year, month, _, _ := t.Date()
	y := float64(year) + (float64(month)-0.5)/12
	switch u := y - 2000; {
	case year >= 1961 && year < 1986:
		v := y - 1975
		return 45.45 + v*(1.067-v*(1.0/260+v/718))
	case year >= 1986 && year < 2005:
		return 63.86 + u*(0.3345+u*(-0.060374+u*(0.0017275+u*(0.000651814+u*0.00002373599))))
	case year >= 2005 && year < 2050:
		return 62.92 + u*(0.32217+u*0.005589)
	case year >= 2050 && year < 2150:
		return longParabola(y) - 0.5628*(2150-y)
	}
	return longParabola(y)
}

func longParabola(y float64) float64 {
	c := (y - 1820) / 100
	return -20 + 32*c*c
}
