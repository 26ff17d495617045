package sun

import "math"

// ClearnessIndex returns the share of the extraterrestrial light that reaches a
// level surface, 0 to 1: global irradiance and normal extraterrestrial irradiance
// in W/m², zenith in degrees. Low suns count as 3.7° high.
func ClearnessIndex(global, zenith, normal float64) float64 {
	return max(0, min(1, global/(normal*max(math.Cos(zenith*degree), 0.065))))
}

// HourlyDiffuse returns the share of diffuse in global light for an hour of
// clearness index kt (Erbs, Klein & Duffie 1982).
func HourlyDiffuse(kt float64) float64 {
	switch {
	case kt <= 0.22:
		return 1 - 0.09*kt
	case kt <= 0.80:
		return 0.9511 + kt*(-0.1604+kt*(4.388+kt*(-16.638+kt*12.336)))
	}
	return 0.165
}

// winter is the hour angle of sunset in degrees up to which the winter forms of
// the daily and monthly shares hold.
const winter = 81.4

// DailyDiffuse returns the share of diffuse light for a day of clearness index kt
// and hour angle of sunset in degrees (Erbs, Klein & Duffie 1982).
func DailyDiffuse(kt, sunset float64) float64 {
	switch {
	case sunset <= winter && kt < 0.715:
		return 1 + kt*(-0.2727+kt*(2.4495+kt*(-11.9514+kt*9.3879)))
	case sunset <= winter:
		return 0.143
	case kt < 0.722:
		return 1 + kt*(0.2832+kt*(-2.5557+kt*0.8448))
	}
	return 0.175
}

// MonthlyDiffuse returns the share of diffuse light for a month of mean clearness
// index kt, which counts as 0.3 to 0.8, and hour angle of sunset in degrees
// (Erbs, Klein & Duffie 1982).
func MonthlyDiffuse(kt, sunset float64) float64 {
	kt = max(0.3, min(0.8, kt))
	if sunset <= winter {
		return 1.391 + kt*(-3.560+kt*(4.189-kt*2.137))
	}
	return 1.311 + kt*(-3.022+kt*(3.427-kt*1.821))
}

// Split divides global light into beam and diffuse by the hourly share: global
// irradiance and normal extraterrestrial irradiance in W/m², zenith in degrees.
// With the sun lower than 3° all of it is diffuse.
func Split(global, zenith, normal float64) Irradiance {
	const lowest = 87
	if zenith > lowest || !(global > 0) {
		return Irradiance{Global: max(0, global), Diffuse: max(0, global)}
	}
	diffuse := global * HourlyDiffuse(ClearnessIndex(global, zenith, normal))
	return Irradiance{Global: global, Beam: (global - diffuse) / math.Cos(zenith*degree), Diffuse: diffuse}
}
