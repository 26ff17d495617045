package sun

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

var (
	ofYear   = figure.Input{Name: "day", Dim: quantity.Plain, Doc: "of the year, 1 on 1 January"}
	constant = figure.Input{Name: "constant", Dim: quantity.WattsPerM2, Doc: "solar constant: 1366.1 (ASTM E490), 1367 in handbooks, 1361 measured lately", Default: "1366.1 W/m2"}
)

// readDay reads the day of the year and the solar constant.
func readDay(a figure.Args) (int, error) {
	day := a.Num("day")
	if day != math.Trunc(day) || !(day >= 1 && day <= 366) {
		return 0, fmt.Errorf("day %g: expected a whole number from 1 to 366: %w", day, figure.ErrRange)
	}
	return int(day), inside(a, "constant", 1000, 2000)
}

// SolarDay answers what a day of the year brings by the handbook's formulas.
var SolarDay = &figure.Figure{
	Name:    "solar-day",
	Answers: "How long is the day, and how much sun would there be without air?",
	Inputs:  []figure.Input{latitude, ofYear, constant},
	Outputs: []figure.Output{
		{Key: "declination_deg", Dim: quantity.Degrees, Doc: "of the sun north of the equator"},
		{Key: "equation_of_time_s", Dim: quantity.Seconds, Doc: "solar time minus mean time"},
		{Key: "sunset_angle_deg", Dim: quantity.Degrees, Doc: "hour angle of sunset, without air"},
		{Key: "day_length_h", Dim: quantity.Hours, Doc: "without air; with it some minutes longer"},
		{Key: "extraterrestrial_wh_m2", Dim: quantity.WattHoursPerM2, Doc: "on a level surface outside the air, in the day"},
	},
	Equation: "δ = 23.45°·sin(360°·(284 + n)/365); cos ws = -tan φ·tan δ; " +
		"H₀ = 24 h/π · Gsc · E₀ · (cos φ·cos δ·sin ws + ws·sin φ·sin δ); E₀ and equation of time by Spencer's series",
	Source:  source.DuffieBeckman,
	Range:   "declination within 1.5°, equation of time within a minute; for sums over days and months, not for hours",
	Compute: computeDay,
	Checks: []figure.Check{
		check(source.DuffieBeckman, "example 1.6.1, 13 February: printed -14", "declination_deg", -13.95, 0.005, "latitude=43", "day=44"),
		check(source.DuffieBeckman, "example 1.5.1, 3 February: -13.49 min", "equation_of_time_s", -809.4, 0.4, "latitude=43", "day=34"),
		check(source.DuffieBeckman, "example 1.6.3, 16 March: printed 87.8", "sunset_angle_deg", 87.74, 0.005, "latitude=43", "day=75"),
		check(source.DuffieBeckman, "example 1.10.1, 15 April at 43° N: 33.8 MJ/m²", "extraterrestrial_wh_m2", 33.81/0.0036, 1.4, "latitude=43", "day=105", "constant=1367 W/m2"),
		check(source.DuffieBeckman, "polar night at 69.7° N, 17 January", "extraterrestrial_wh_m2", 0, 1e-9, "latitude=69.7", "day=17"),
		check(source.DuffieBeckman, "33.4° S, 10 December: 44.12 MJ/m²", "extraterrestrial_wh_m2", 44.12/0.0036, 1.4, "latitude=-33.4", "day=344", "constant=1367 W/m2"),
	},
}

func computeDay(a figure.Args) (figure.Results, error) {
	day, err := readDay(a)
	if err != nil {
		return nil, err
	}
	if err := inside(a, "latitude", -90, 90); err != nil {
		return nil, err
	}
	dec := Declination(day)
	ws := SunsetAngle(a.Num("latitude"), dec)
	return figure.Results{"declination_deg": dec, "equation_of_time_s": 60 * EquationOfTime(day), "sunset_angle_deg": ws, "day_length_h": ws / 7.5,
		"extraterrestrial_wh_m2": DailyExtraterrestrial(a.Num("latitude"), day, a.Num("constant"))}, nil
}

// ExtraterrestrialNormal answers how strong the sun is outside the air.
var ExtraterrestrialNormal = &figure.Figure{
	Name:     "extraterrestrial",
	Answers:  "How strong is the sun outside the air on this day?",
	Inputs:   []figure.Input{ofYear, constant},
	Outputs:  []figure.Output{{Key: "normal_w_m2", Dim: quantity.WattsPerM2, Doc: "on a surface that faces the sun"}},
	Equation: "G = constant · (1.00011 + 0.034221·cos B + 0.00128·sin B + 0.000719·cos 2B + 0.000077·sin 2B), B = 360°·(day - 1)/365",
	Source:   source.Spencer1971,
	Range:    "within 0.2 % of the sun's true distance",
	Compute: func(a figure.Args) (figure.Results, error) {
		day, err := readDay(a)
		if err != nil {
			return nil, err
		}
		return figure.Results{"normal_w_m2": Extraterrestrial(day, a.Num("constant"))}, nil
	},
	Checks: []figure.Check{
		check(source.SunTables, "27 February", "normal_w_m2", 1393.4194, 1e-4, "day=58"),
		check(source.SunTables, "27 February, by 1361 W/m²", "normal_w_m2", 1388.2174, 1e-4, "day=58", "constant=1361 W/m2"),
		check(source.SunTables, "1 December", "normal_w_m2", 1405.9919, 1e-4, "day=335"),
	},
}
