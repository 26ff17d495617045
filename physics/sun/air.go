package sun

import "math"

// Pressure returns the pressure of the standard atmosphere in Pa at an elevation
// in m, up to 11,000 m.
func Pressure(elevation float64) float64 {
	return 100 * math.Pow((44331.514-elevation)/11880.516, 1/0.1902632)
}

// StandardAir is the air of the standard atmosphere's pressure and of 12 °C.
func StandardAir(elevation float64) Air { return Air{Pressure(elevation), 12} }

// seaLevel is the pressure in Pa that relative air mass refers to.
const seaLevel = 101325.0

// AirMass returns the relative optical air mass at an apparent zenith angle in
// degrees (Kasten & Young 1989): 1 overhead, 38 at the horizon, 0 for a sun below
// it. Times pressure/101,325 Pa it is absolute.
func AirMass(zenith float64) float64 {
	if !(zenith <= 90) {
		return 0
	}
	return 1 / (math.Cos(zenith*degree) + 0.50572*math.Pow(96.07995-zenith, -1.6364))
}

// QuickAirMass returns the relative air mass from the upward part of the direction
// of the sun without refraction (Young 1994): 0 for a sun below the horizon.
func QuickAirMass(up float64) float64 {
	if !(up > 0) {
		return 0
	}
	return ((1.002432*up+0.148386)*up + 0.0096467) / (((up+0.149864)*up+0.0102963)*up + 0.000303978)
}
