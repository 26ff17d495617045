package quantity

// Shares and plain numbers.
var (
	// Fraction keeps 1.5 % as 0.015.
	Fraction = both(Dimension{Name: "share", Article: "a percentage", Base: "%", Example: "1.5 %",
		Units: []Unit{u(1e-2, "%", "percent"), u(1e-3, "‰")}})
	// Percent keeps 1.5 % as 1.5, for figures whose results are percentages.
	Percent = both(Dimension{Name: "percentage", Article: "a percentage", Base: "%", Example: "3 %",
		Units: []Unit{u(1, "%", "percent")}})
	Plain = both(Dimension{Name: "number", Article: "a plain number", Base: "", Example: "2",
		Units: []Unit{u(1, "")}})
)

// Units of a difference, a rate and a direction come last: °C, C and ° are
// first of all what they are elsewhere.
var shares = []*Dimension{Fraction, Percent, Kelvins, PerHour, Degrees, DegreesNorth, DegreesEast}
