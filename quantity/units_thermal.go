package quantity

// The thermal dimensions. Celsius is where a thermometer stands, Kelvins how
// far two temperatures lie apart: 2 °C as a difference is 2 K.
var (
	Celsius = &Dimension{Name: "temperature", Article: "a temperature", Base: "°C", Example: "5 °C",
		Units: []Unit{u(1, "°C", "C"),
			{Names: []string{"°F", "F"}, Scale: fahrenheit, Offset: -32 * fahrenheit},
			{Names: []string{"K"}, Scale: 1, Offset: zeroKelvin}},
		metric: []step{{0, "°C"}}, us: []step{{0, "°F"}}, refuse: belowZeroKelvin}
	Kelvins = &Dimension{Name: "temperature difference", Article: "a temperature difference", Base: "K", Example: "2 K",
		Units:  []Unit{u(1, "K", "°C", "C"), u(fahrenheit, "°F", "F")},
		metric: []step{{0, "K"}}, us: []step{{0, "°F"}}}
	VoltsPerKelvin = &Dimension{Name: "temperature compensation", Article: "a voltage per kelvin",
		Base: "V/K", Example: "-30 mV/K",
		Units: []Unit{u(1, "V/K", "V/°C", "V/C"), u(1e-3, "mV/K", "mV/°C", "mV/C"),
			u(1e-3/fahrenheit, "mV/°F", "mV/F"), u(1/fahrenheit, "V/°F", "V/F")},
		metric: []step{{0, "mV/K"}}, us: []step{{0, "mV/°F"}}}
	PerKelvin = &Dimension{Name: "temperature coefficient", Article: "a percentage per kelvin",
		Base: "%/K", Example: "-0.29 %/K",
		Units:  []Unit{u(1e-2, "%/K", "%/°C", "%/C"), u(1e-2/fahrenheit, "%/°F", "%/F")},
		metric: []step{{0, "%/K"}}, us: []step{{0, "%/°F"}}}
	WattsPerKelvin = &Dimension{Name: "heat loss", Article: "a heat loss", Base: "W/K", Example: "1.2 W/K",
		Units: []Unit{u(1, "W/K", "W/°C", "W/C"), u(1/fahrenheit, "W/°F", "W/F"),
			u(btu/3600/fahrenheit, "Btu/h/°F", "Btu/h/F")},
		metric: []step{{0, "W/K"}}, us: []step{{0, "Btu/h/°F"}}}
	JoulesPerKgK = &Dimension{Name: "specific heat", Article: "a specific heat", Base: "J/kg/K", Example: "950 J/kg/K",
		Units: []Unit{u(1, "J/kg/K", "J/(kgK)", "J/kg/°C"), u(1e3, "kJ/kg/K", "kJ/(kgK)"),
			u(btu/pound/fahrenheit, "Btu/lb/°F", "Btu/lb/F")},
		metric: []step{{0, "J/kg/K"}}, us: []step{{0, "Btu/lb/°F"}}}
	WattsPerMetreK = &Dimension{Name: "conductivity", Article: "a heat conductivity", Base: "W/m/K", Example: "0.035 W/m/K",
		Units: []Unit{u(1, "W/m/K", "W/(mK)", "W/mK"),
			u(btu*inch/3600/(foot*foot)/fahrenheit, "Btu in/h/ft²/°F", "Btuin/h/ft2/°F", "Btuin/h/ft2/F")},
		metric: []step{{0, "W/m/K"}}, us: []step{{0, "Btu in/h/ft²/°F"}}}
	WattsPerM2 = both(Dimension{Name: "irradiance", Article: "an irradiance", Base: "W/m²", Example: "900 W/m2",
		Units: []Unit{u(1, "W/m²", "W/m2")}})
)

var thermal = []*Dimension{Celsius, VoltsPerKelvin, PerKelvin, WattsPerKelvin, JoulesPerKgK, WattsPerMetreK, WattsPerM2}

// belowZeroKelvin leaves room for the rounding of -459.67 °F.
func belowZeroKelvin(v float64) string {
	if v < zeroKelvin-1e-9 {
		return "is below absolute zero"
	}
	return ""
}
