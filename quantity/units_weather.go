package quantity

const (
	knot         = 1852.0 / 3600 // m/s
	inchesOfHg   = 3386.389      // Pa, at 0 °C
	poundsPerIn2 = pound * 9.80665 / (inch * inch)
)

// Dimensions of weather. Irradiance is WattsPerM2.
var (
	Pascals = &Dimension{Name: "pressure", Article: "a pressure", Base: "Pa", Example: "820 hPa",
		Units: []Unit{u(1, "Pa"), u(100, "hPa", "mbar", "millibar"), u(1e3, "kPa"), u(1e5, "bar"),
			u(inchesOfHg, "inHg"), u(poundsPerIn2, "psi")},
		metric: []step{{0, "hPa"}}, us: []step{{0, "inHg"}}}
	MetresPerSecond = &Dimension{Name: "speed", Article: "a speed", Base: "m/s", Example: "3 m/s",
		Units: []Unit{u(1, "m/s"), u(1/3.6, "km/h"), u(mile/3600, "mph"), u(foot, "ft/s"), u(knot, "kn", "knot", "knots")},
		us:    []step{{0, "mph"}}}
	// WattHoursPerM2 is the sum of irradiance over a time.
	WattHoursPerM2 = both(Dimension{Name: "irradiation", Article: "an irradiation", Base: "Wh/m²", Example: "4.2 kWh/m2",
		Units:  []Unit{u(1, "Wh/m²", "Wh/m2"), u(1e3, "kWh/m²", "kWh/m2"), u(1e6/3600, "MJ/m²", "MJ/m2")},
		metric: []step{{0, "Wh/m²"}, {1e3, "kWh/m²"}}})
)

var weather = []*Dimension{Pascals, MetresPerSecond, WattHoursPerM2}
