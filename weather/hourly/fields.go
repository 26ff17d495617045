package hourly

import (
	"math"
	"strconv"
	"strings"
)

// floats reads named fields of a row: name, index, name, index …
func floats(fields []string, line int, what ...any) ([]float64, error) {
	var out []float64
	for i := 0; i < len(what); i += 2 {
		name, at := what[i].(string), what[i+1].(int)
		if at < 0 || at >= len(fields) {
			return nil, fault(line, "a field "+name, "the row has %d fields", len(fields))
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(fields[at]), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fault(line, "a number", "%s is %q", name, clip(fields[at]))
		}
		out = append(out, v)
	}
	return out, nil
}

// ints is floats for whole numbers.
func ints(fields []string, line int, what ...any) ([]int, error) {
	values, err := floats(fields, line, what...)
	if err != nil {
		return nil, err
	}
	out := make([]int, len(values))
	for i, v := range values {
		if v != math.Trunc(v) || math.Abs(v) > 1e6 {
			return nil, fault(line, "a whole number", "%s is %g", what[2*i], v)
		}
		out[i] = int(v)
	}
	return out, nil
}

// onCalendar reports whether there is such a time; months are taken as of 31 days,
// for rows are checked against each other.
func onCalendar(year, month, day, hour, minute int) bool {
	within := func(v, low, high int) bool { return v >= low && v <= high }
	return within(year, 1900, 2200) && within(month, 1, 12) && within(day, 1, 31) && within(hour, 0, 23) && within(minute, 0, 59)
}
