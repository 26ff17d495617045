package sun

import "math"

// Irradiance is the light at a place in W/m²: on a level surface, on a surface
// facing the sun, and from the sky on a level surface.
type Irradiance struct{ Global, Beam, Diffuse float64 }

// Clear is what the clear sky depends on: sun, air and haze.
type Clear struct {
	Zenith    float64 // apparent, degrees
	AirMass   float64 // absolute; 0 for a sun below the horizon
	Normal    float64 // extraterrestrial, W/m²
	Elevation float64 // m
	Turbidity float64 // Linke's: 2 very clean and cold, 3 clean, 4 summer, 5 humid or dusty, 6 and more polluted
	Enhanced  bool    // with Perez's factor e^(0.01·AM^1.8) on the global part
}

// Ineichen returns the light of a cloudless sky (Ineichen & Perez, Solar Energy
// 73, 2002). Nothing for a sun below the horizon.
func Ineichen(c Clear) Irradiance {
	cos := math.Cos(c.Zenith * degree)
	if c.AirMass <= 0 || cos <= 0 {
		return Irradiance{}
	}
	fh1, fh2 := math.Exp(-c.Elevation/8000), math.Exp(-c.Elevation/1250)
	cg1, cg2 := 5.09e-5*c.Elevation+0.868, 3.92e-5*c.Elevation+0.0387
	haze := c.Turbidity - 1
	global := cg1 * c.Normal * cos * math.Exp(-cg2*c.AirMass*(fh1+fh2*haze))
	if c.Enhanced {
		global *= math.Exp(0.01 * math.Pow(c.AirMass, 1.8))
	}
	beam := (0.664 + 0.163/fh1) * c.Normal * math.Exp(-0.09*c.AirMass*haze)
	limit := global * max(0, 1-(0.1-0.2*math.Exp(-c.Turbidity))/(0.1+0.882/fh1)) / cos
	beam = min(beam, limit)
	return Irradiance{Global: global, Beam: beam, Diffuse: global - beam*cos}
}

// Haurwitz returns the irradiance in W/m² on a level surface under a cloudless
// sky from the apparent zenith angle alone, in degrees (Haurwitz 1945, 1946).
func Haurwitz(zenith float64) float64 {
	cos := math.Cos(zenith * degree)
	if cos <= 0 {
		return 0
	}
	return 1098 * cos * math.Exp(-0.059/cos)
}
