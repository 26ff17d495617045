package cli

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strconv"

	"ampstead/drill"
	"ampstead/fit"
)

// traceCSV writes the traces of a run; each column's name ends in its unit.
func traceCSV(s *drill.Strip) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	columns := []struct {
		name     string
		values   []float64
		decimals int
	}{
		{"time_s", s.Time, 3}, {"highest_cell_v", s.HighV, 4}, {"lowest_cell_v", s.LowV, 4}, {"bank_a", s.BankA, 3}, {"bus_v", s.BusV, 3},
		{"coldest_c", s.ColdC, 2}, {"hottest_c", s.HotC, 2}, {"soc", s.SoC, 5},
	}
	row := make([]string, len(columns))
	for k, c := range columns {
		row[k] = c.name
	}
	_ = w.Write(row) // into memory: it cannot fail
	for i := range s.Time {
		for k, c := range columns {
			row[k] = cell(c.values, i, c.decimals)
		}
		_ = w.Write(row)
	}
	w.Flush()
	return out.Bytes()
}

// cell is one number; empty where there is none.
func cell(values []float64, i, decimals int) string {
	if i >= len(values) || math.IsNaN(values[i]) || math.IsInf(values[i], 0) {
		return ""
	}
	return strconv.FormatFloat(values[i], 'f', decimals, 64)
}

// inputOf is the input error of a stage in err, or nil.
func inputOf(err error) *fit.InputError {
	var in *fit.InputError
	if errors.As(err, &in) {
		return in
	}
	return nil
}
