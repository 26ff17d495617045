package hourly

import (
	"math"
	"strconv"
	"strings"
)

// record is one row: W/m², °C, m/s. NaN is a value the file says is missing.
type record struct {
	line                      int
	ghi, dni, dhi, temp, wind float64
}

// bounds of a quantity; values below low but not below slack count as low.
type bounds struct {
	name             string
	slack, low, high float64
}

// What no air or sky exceeds. Instruments read a little below zero at night.
var (
	globalBounds  = bounds{"global irradiance", -30, 0, 1700}
	beamBounds    = bounds{"direct irradiance", -30, 0, 1500}
	diffuseBounds = bounds{"diffuse irradiance", -30, 0, 1300}
	tempBounds    = bounds{"temperature", -95, -95, 65}
	windBounds    = bounds{"wind speed", 0, 0, 90}
)

// number reads one field. Empty fields and values a format uses for missing ones
// give NaN; other values out of bounds are an error.
func (b bounds) number(text string, line int, missing ...float64) (float64, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return math.NaN(), nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fault(line, "a number", "%s is %q", b.name, clip(text))
	}
	for _, m := range missing {
		if v == m {
			return math.NaN(), nil
		}
	}
	return b.check(v, line)
}

func (b bounds) check(v float64, line int) (float64, error) {
	if !(v >= b.slack && v <= b.high) {
		return 0, fault(line, b.text(), "%s is %g", b.name, v)
	}
	return max(v, b.low), nil
}

func (b bounds) text() string {
	f := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	return f(b.low) + " to " + f(b.high)
}

// columns are where in a row the quantities stand, and what stands there when
// they are missing.
type columns struct {
	ghi, dni, dhi, temp, wind int
	noLight, noTemp, noWind   []float64
}

// record reads the fields of a row.
func (c columns) record(fields []string, line int) (record, error) {
	r := record{line: line}
	for _, q := range []struct {
		to      *float64
		bounds  bounds
		column  int
		missing []float64
	}{
		{&r.ghi, globalBounds, c.ghi, c.noLight}, {&r.dni, beamBounds, c.dni, c.noLight}, {&r.dhi, diffuseBounds, c.dhi, c.noLight},
		{&r.temp, tempBounds, c.temp, c.noTemp}, {&r.wind, windBounds, c.wind, c.noWind},
	} {
		if q.column >= len(fields) {
			return r, fault(line, strconv.Itoa(q.column+1)+" fields at least", "the row has %d fields", len(fields))
		}
		v, err := q.bounds.number(fields[q.column], line, q.missing...)
		if err != nil {
			return r, err
		}
		*q.to = v
	}
	return r, nil
}

// find looks columns up by name in a header row, in the order of columns' first
// five fields.
func find(header []string, line int, names [5]string) (columns, error) {
	var at [5]int
	for i, name := range names {
		at[i] = index(header, name)
		if at[i] < 0 {
			return columns{}, fault(line, "a column "+strconv.Quote(name), "the row of names has none")
		}
	}
	return columns{ghi: at[0], dni: at[1], dhi: at[2], temp: at[3], wind: at[4]}, nil
}

func index(header []string, name string) int {
	for i, h := range header {
		if strings.EqualFold(strings.TrimSpace(h), name) {
			return i
		}
	}
	return -1
}

// clip keeps messages short.
func clip(s string) string {
	if len(s) > 40 {
		return s[:40] + "…"
	}
	return s
}
