package sun

import "math"

// SolarConstant is the irradiance in W/m² outside the air at the mean distance of
// the sun, as ASTM E490 gives it. Handbooks use 1367, recent measurements 1361.
const SolarConstant = 1366.1

// Extraterrestrial returns the irradiance in W/m² on a surface that faces the sun
// outside the air, on a day of the year (Spencer 1971) for a solar constant in
// W/m². Against the sun's true distance it errs by less than 0.2 %.
func Extraterrestrial(dayOfYear int, constant float64) float64 {
	sin, cos := yearAngle(dayOfYear)
	sin2, cos2 := 2*sin*cos, 1-2*sin*sin
	return constant * (1.00011 + 0.034221*cos + 0.00128*sin + 0.000719*cos2 + 0.000077*sin2)
}

func yearAngle(dayOfYear int) (sin, cos float64) {
	return math.Sincos(2 * math.Pi * float64(dayOfYear-1) / 365)
}

// Declination returns how far north of the equator the sun stands, in degrees, on
// a day of the year (Cooper 1969, within 1.5°).
func Declination(dayOfYear int) float64 {
	return 23.45 * math.Sin(2*math.Pi*float64(284+dayOfYear)/365)
}

// EquationOfTime returns solar time minus mean time in minutes on a day of the
// year (Spencer 1971, within a minute).
func EquationOfTime(dayOfYear int) float64 {
	sin, cos := yearAngle(dayOfYear)
	return 229.2 * (0.000075 + 0.001868*cos - 0.032077*sin - 0.014615*(1-2*sin*sin) - 0.04089*2*sin*cos)
}

// SunsetAngle returns the hour angle of sunset in degrees, of the disc's centre
// and without air, for a latitude and declination in degrees: 0 in polar night,
// 180 in polar day.
func SunsetAngle(latitude, declination float64) float64 {
	cos := -math.Tan(latitude*degree) * math.Tan(declination*degree)
	return math.Acos(max(-1, min(1, cos))) / degree
}

// DailyExtraterrestrial returns the irradiation in Wh/m² that a level surface
// outside the air gets on a day of the year, for a solar constant in W/m² (Duffie
// & Beckman, section 1.10).
func DailyExtraterrestrial(latitude float64, dayOfYear int, constant float64) float64 {
	dec := Declination(dayOfYear)
	ws := SunsetAngle(latitude, dec) * degree
	sinLat, cosLat := math.Sincos(latitude * degree)
	sinDec, cosDec := math.Sincos(dec * degree)
	return max(0, 24/math.Pi*Extraterrestrial(dayOfYear, constant)*(cosLat*cosDec*math.Sin(ws)+ws*sinLat*sinDec))
}
