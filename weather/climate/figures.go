package climate

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure { return []*figure.Figure{MonthlyClimate, TemperatureRange} }

// MonthlyClimate answers what a month is like at a place.
var MonthlyClimate = &figure.Figure{
	Name:    "monthly-climate",
	Answers: "How much sun and what temperature does this place have in this month?",
	Inputs: []figure.Input{
		{Name: "latitude", Dim: quantity.DegreesNorth, Doc: "of the place, north positive"},
		{Name: "longitude", Dim: quantity.DegreesEast, Doc: "of the place, east positive"},
		{Name: "elevation", Dim: quantity.Metres, Doc: "of the place above the sea"},
		{Name: "month", Dim: quantity.Plain, Doc: "of the year, 1 for January"},
	},
	Outputs: []figure.Output{
		{Key: "ghi_wh_m2", Dim: quantity.WattHoursPerM2, Doc: "on level ground, mean of a day"},
		{Key: "temperature_c", Dim: quantity.Celsius, Doc: "mean"},
		{Key: "range_k", Dim: quantity.Kelvins, Doc: "warmest minus coldest of a day, estimated"},
		{Key: "spread_fraction", Dim: quantity.Fraction, Doc: "standard deviation of the irradiation from year to year, estimated"},
		{Key: "spread_k", Dim: quantity.Kelvins, Doc: "the same of the mean temperature, estimated"},
	},
	Equation: "irradiation: bilinear between cells of 1°; temperature: bilinear between nodes of 2.5° - 6.5 K/km · (elevation - terrain); " +
		"range = (K/k)², k 0.16 inland to 0.19 at coasts; spread = day-to-day spread · √((1 + r)/(1 - r)/days), r the day-to-day correlation",
	Source:  source.ClimateGHI,
	Range:   "land and coasts from 60° S to 84° N; 7 % of the irradiation and 2 to 3.5 K are to be allowed for, more in mountains and along cold coasts; docs/weather.md has the errors",
	Compute: computeClimate,
	Checks: []figure.Check{
		check(source.ClimateGHI, "centre of a cell, January: 4.72 kWh/m² as published", "ghi_wh_m2", 4720, 1e-6, "latitude=-59.5", "longitude=-47.5", "elevation=0 m", "month=1"),
		check(source.ClimateGHI, "the same, June: 0.18 kWh/m²", "ghi_wh_m2", 180, 1e-6, "latitude=-59.5", "longitude=-47.5", "elevation=0 m", "month=6"),
		check(source.ClimateTemperature, "a node at the height of its terrain, January: 2.6 °C as published", "temperature_c", 2.6, 1e-6, "latitude=50", "longitude=5", "elevation=174 m", "month=1"),
		check(source.LapseRate, "the same 1000 m higher", "temperature_c", -3.9, 1e-6, "latitude=50", "longitude=5", "elevation=1174 m", "month=1"),
	},
}

func computeClimate(a figure.Args) (figure.Results, error) {
	month := a.Num("month")
	if month != math.Trunc(month) || !(month >= 1 && month <= 12) {
		return nil, fmt.Errorf("month %g: expected a whole number from 1 to 12: %w", month, figure.ErrRange)
	}
	m, err := At(a.Num("latitude"), a.Num("longitude"), a.Num("elevation"))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", err, figure.ErrRange)
	}
	v := m.Months[int(month)-1]
	return figure.Results{"ghi_wh_m2": v.GHI, "temperature_c": v.TempC, "range_k": v.RangeK,
		"spread_fraction": v.SpreadGHI, "spread_k": v.SpreadK}, nil
}

// TemperatureRange answers how far a day's temperatures lie apart.
var TemperatureRange = &figure.Figure{
	Name:    "temperature-range",
	Answers: "How far apart are the warmest and the coldest of a day, from how clear the month is?",
	Inputs: []figure.Input{
		{Name: "clearness", Dim: quantity.Plain, Doc: "clearness index of the month: light on the ground over light outside the air"},
		{Name: "inland", Dim: quantity.Plain, Doc: "1 inland, 0 at the coast", Default: "1"},
	},
	Outputs:  []figure.Output{{Key: "range_k", Dim: quantity.Kelvins, Doc: "mean of the month"}},
	Equation: "range = (clearness/(0.19 - 0.03·inland))², 25 K at most",
	Source:   source.FAO56,
	Range:    "within 1.4 K r.m.s. of 72 station months, 4 K at worst; nothing to go by in polar night",
	Compute:  computeRange,
	Checks: []figure.Check{
		check(source.Equation, "half clear, inland", "range_k", 9.7656, 1e-4, "clearness=0.5"),
		check(source.Equation, "half clear, coast", "range_k", 6.9252, 1e-4, "clearness=0.5", "inland=0"),
		check(source.Targets, "Greensboro, year: 10.7 K measured", "range_k", 10.7, 1, "clearness=0.514"),
		check(source.Targets, "Sand Point, year: 3.6 K measured", "range_k", 3.6, 1, "clearness=0.362", "inland=0"),
	},
}

func computeRange(a figure.Args) (figure.Results, error) {
	for _, name := range []string{"clearness", "inland"} {
		if v := a.Num(name); !(v >= 0 && v <= 1) {
			return nil, fmt.Errorf("%s must be from 0 to 1: %w", name, figure.ErrRange)
		}
	}
	return figure.Results{"range_k": DailyRange(a.Num("clearness"), a.Num("inland"))}, nil
}

func check(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}
