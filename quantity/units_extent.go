package quantity

// Lengths, areas, masses, times and directions.
var (
	Metres = &Dimension{Name: "length", Article: "a length", Base: "m", Example: "2.4 m",
		Units: []Unit{u(1, "m", "metre", "metres", "meter", "meters"), u(1e-3, "mm"), u(1e-2, "cm"), u(1e3, "km"),
			u(foot, "ft", "feet", "foot", "'"), u(inch, "in", "inch", "inches", `"`), u(mile, "mi", "mile", "miles")},
		metric: []step{{0, "mm"}, {0.3, "m"}, {1e4, "km"}}, us: []step{{0, "in"}, {foot, "ft"}, {5 * mile, "mi"}}}
	SquareMetres = &Dimension{Name: "area", Article: "an area", Base: "m²", Example: "0.8 m2",
		Units: []Unit{u(1, "m²", "m2"), u(1e-4, "cm²", "cm2"), u(1e-6, "mm²", "mm2"),
			u(foot*foot, "ft²", "ft2", "sqft"), u(inch*inch, "in²", "in2", "sqin")},
		metric: []step{{0, "mm²"}, {1e-3, "cm²"}, {0.1, "m²"}}, us: []step{{0, "in²"}, {foot * foot, "ft²"}}}
	// SquareMillimetres and CircularMils are the cross-section of a conductor,
	// kept in mm² and in circular mils (a circle of one thousandth of an inch).
	SquareMillimetres = &Dimension{Name: "cross-section", Article: "a cross-section", Base: "mm²", Example: "35 mm2",
		Units:  []Unit{u(1, "mm²", "mm2"), u(cmil*1e6, "cmil"), u(cmil*1e9, "kcmil")},
		metric: []step{{0, "mm²"}}, us: []step{{0, "cmil"}}}
	CircularMils = both(Dimension{Name: "cross-section", Article: "a cross-section", Base: "cmil", Example: "6530 cmil",
		Units: []Unit{u(1, "cmil"), u(1e3, "kcmil"), u(1e-6/cmil, "mm²", "mm2")}})
	Kilograms = &Dimension{Name: "mass", Article: "a mass", Base: "kg", Example: "25 kg",
		Units: []Unit{u(1, "kg"), u(1e-3, "g"), u(1e3, "t"),
			u(pound, "lb", "lbs", "pound", "pounds"), u(pound/16, "oz")},
		metric: []step{{0, "g"}, {1, "kg"}}, us: []step{{0, "oz"}, {pound, "lb"}}}
	Seconds = both(Dimension{Name: "time", Article: "a time", Base: "s", Example: "30 s", Units: times(1),
		metric: []step{{0, "ms"}, {1, "s"}, {90, "min"}, {7200, "h"}, {172800, "d"}}})
	// Hours is a time kept in hours, for results that are read in hours.
	Hours = both(Dimension{Name: "time", Article: "a time", Base: "h", Example: "2 h", Units: times(3600),
		metric: []step{{0, "s"}, {0.025, "min"}, {2, "h"}, {48, "d"}}})
	Degrees = both(Dimension{Name: "angle", Article: "an angle", Base: "°", Example: "30 °",
		Units: []Unit{u(1, "°")}})
	DegreesNorth = both(Dimension{Name: "latitude", Article: "a latitude", Base: "°N", Example: "37.2 °N", figures: 6,
		Units: []Unit{u(1, "°N", "N", "°"), u(-1, "°S", "S")}, below: "°S"})
	DegreesEast = both(Dimension{Name: "longitude", Article: "a longitude", Base: "°E", Example: "7.6 °W", figures: 6,
		Units: []Unit{u(1, "°E", "E", "°"), u(-1, "°W", "W")}, below: "°W"})
)

var extent = []*Dimension{Metres, SquareMetres, SquareMillimetres, CircularMils, Kilograms, Seconds, Hours}

// times are the units of time for a base unit of the given seconds.
func times(base float64) []Unit {
	return []Unit{u(1/base, "s", "sec", "second", "seconds"), u(1e-3/base, "ms"),
		u(60/base, "min", "mins", "minute", "minutes"), u(3600/base, "h", "hr", "hrs", "hour", "hours"),
		u(86400/base, "d", "day", "days"), u(604800/base, "week", "weeks")}
}
