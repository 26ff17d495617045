package quantity

// The electrical dimensions.
var (
	Volts = both(Dimension{Name: "voltage", Article: "a voltage", Base: "V", Example: "28.8 V",
		Units:  []Unit{u(1, "V", "volt", "volts"), u(1e-3, "mV"), u(1e3, "kV")},
		metric: []step{{0, "mV"}, {0.1, "V"}}})
	Amperes = both(Dimension{Name: "current", Article: "a current", Base: "A", Example: "60 A",
		Units:  []Unit{u(1, "A", "amp", "amps"), u(1e-3, "mA"), u(1e3, "kA")},
		metric: []step{{0, "mA"}, {0.1, "A"}, {1e4, "kA"}}})
	AmpereHours = both(Dimension{Name: "charge", Article: "a charge", Base: "Ah", Example: "94 Ah",
		Units:  []Unit{u(1, "Ah"), u(1e-3, "mAh")},
		metric: []step{{0, "mAh"}, {0.1, "Ah"}}})
	WattHours = both(Dimension{Name: "energy", Article: "an energy", Base: "Wh", Example: "5.2 kWh",
		Units: []Unit{u(1, "Wh"), u(1e3, "kWh"), u(1e6, "MWh"),
			u(1.0/3600, "J"), u(1e3/3600, "kJ"), u(1e6/3600, "MJ")},
		metric: []step{{0, "Wh"}, {1e3, "kWh"}}})
	// Joules is the energy of a pulse, kept in joules.
	Joules = both(Dimension{Name: "pulse energy", Article: "a pulse energy", Base: "J", Example: "20 J",
		Units: []Unit{u(1, "J"), u(1e3, "kJ"), u(3600, "Wh")}})
	Watts = both(Dimension{Name: "power", Article: "a power", Base: "W", Example: "330 W",
		Units:  []Unit{u(1, "W", "watt", "watts"), u(1e3, "kW"), u(1e-3, "mW")},
		metric: []step{{0, "mW"}, {0.1, "W"}, {1e4, "kW"}}})
	Ohms = both(Dimension{Name: "resistance", Article: "a resistance", Base: "Ω", Example: "1.2 mΩ",
		Units: []Unit{u(1, "Ω", "ohm", "ohms"), u(1e-3, "mΩ", "mohm", "mohms"),
			u(1e-6, "µΩ", "uohm", "uohms"), u(1e3, "kΩ", "kohm", "kohms")},
		metric: []step{{0, "mΩ"}, {0.5, "Ω"}}})
	Farads = both(Dimension{Name: "capacitance", Article: "a capacitance", Base: "F", Example: "20 mF",
		Units:  []Unit{u(1, "F", "farad", "farads"), u(1e-3, "mF"), u(1e-6, "µF", "uF")},
		metric: []step{{0, "µF"}, {1e-3, "mF"}, {1, "F"}}})
	PerHour = both(Dimension{Name: "rate", Article: "a rate of charge or discharge", Base: "C", Example: "0.5 C",
		Units: []Unit{u(1, "C", "/h")}})
	OhmsPerMetre = &Dimension{Name: "resistance per length", Article: "a resistance per length",
		Base: "Ω/m", Example: "0.386 Ω/km",
		Units: []Unit{u(1, "Ω/m", "ohm/m"), u(1e-3, "mΩ/m", "mohm/m"), u(1e-3, "Ω/km", "ohm/km"),
			u(1e-3/foot, "Ω/kft", "ohm/kft", "ohm/1000ft")},
		metric: []step{{0, "Ω/km"}}, us: []step{{0, "Ω/kft"}}}
)

var electrical = []*Dimension{Volts, Amperes, AmpereHours, WattHours, Watts, Ohms, Farads, OhmsPerMetre}
