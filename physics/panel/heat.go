package panel

import "math"

// Coefficients of Faiman's model for a panel standing free: W/m²/K, and W·s/m³/K
// of wind.
const (
	FaimanU0 = 25.0
	FaimanU1 = 6.84
)

// Faiman returns the temperature of the module in °C from irradiance, ambient
// temperature and wind (Faiman 2008).
func Faiman(irradiance, ambient, wind, u0, u1 float64) float64 {
	return ambient + irradiance/(u0+u1*wind)
}

// HeatBalance returns the cell temperature in °C of a panel that absorbs 0.9 of
// the light, turns the share efficiency of that into power and loses uc + uv·wind
// W/m²/K: uc is 29 standing free, 20 partly closed in, 15 with an insulated back.
func HeatBalance(irradiance, ambient, wind, uc, uv, efficiency float64) float64 {
	return ambient + 0.9*irradiance*(1-efficiency)/(uc+uv*wind)
}

// Ross returns the cell temperature in °C from the nominal operating cell
// temperature on the panel's data sheet, without wind.
func Ross(irradiance, ambient, noct float64) float64 {
	return ambient + irradiance/800*(noct-20)
}

// NOCTWind is Ross with wind at 10 m (half of it at the panel) and with the
// efficiency at which light leaves as power.
func NOCTWind(irradiance, ambient, wind, noct, efficiency float64) float64 {
	return ambient + irradiance/800*(noct-20)*(1-efficiency/0.9)*9.5/(5.7+3.8*0.51*wind)
}

// Mounting is how a panel is fixed, with the coefficients of King et al. 2004.
type Mounting struct {
	Name    string
	A, B    float64
	FrontUp float64 // K of the cell above the back at 1000 W/m²
}

// The mountings of King et al. 2004 (SAND2004-3535). InsulatedBack is a panel
// glued to a roof.
var (
	OpenGlass     = Mounting{"open-rack-glass", -3.47, -0.0594, 3}
	CloseGlass    = Mounting{"close-mount-glass", -2.98, -0.0471, 1}
	OpenPolymer   = Mounting{"open-rack-polymer", -3.56, -0.0750, 3}
	InsulatedBack = Mounting{"insulated-back", -2.81, -0.0455, 0}
)

// CellTemperature returns the cell temperature in °C from irradiance, ambient
// temperature and wind at 10 m.
func (m Mounting) CellTemperature(irradiance, ambient, wind float64) float64 {
	return ambient + irradiance*math.Exp(m.A+m.B*wind) + irradiance/1000*m.FrontUp
}
