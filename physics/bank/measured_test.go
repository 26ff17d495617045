package bank

import (
	"compress/gzip"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// readLog reads the named columns of a compressed log.
func readLog(t *testing.T, path string, columns ...int) [][]float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(z).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var log [][]float64
	for _, row := range rows[1:] {
		var values []float64
		for _, c := range columns {
			v, err := strconv.ParseFloat(row[c], 64)
			if err != nil {
				t.Fatal(err)
			}
			values = append(values, v)
		}
		log = append(log, values)
	}
	return log
}

// A real module of six groups, discharged. Its charge comes from the rest
// voltages, its resistances from the log's own first ten seconds, its capacity
// and rest-voltage curve from another cell of the same vehicle: nothing is
// fitted to the run. Groups 1 and 4 hold less than the others, which this does
// not know, so the end of the run shows it.
func TestMeasuredDischarge(t *testing.T) {
	cases := []struct {
		file        string
		ohm         []float64 // 10 s, mΩ, as published with the data
		mean, worst float64   // V a group over the first 80 % of the charge
	}{
		{"ev2013-6group-discharge-19.5a.csv.gz", []float64{1.08, 1.28, 1.23, 1.13, 1.28, 1.33}, 0.010, 0.030},
		{"ev2013-6group-discharge-130a.csv.gz", []float64{0.92, 1.12, 1.05, 1.00, 1.09, 1.14}, 0.020, 0.060},
	}
	for _, c := range cases {
		log := readLog(t, shared.Path(t, "data/battery/"+c.file), 0, 1, 2, 3, 4, 5, 6, 7, 8, 9)
		pouch := lookup(t, "lmo-blend-pouch")
		s := Spec{Cell: pouch, Series: 6, CapacityAh: 2 * 30.5, LinksOhm: 4e-4, MassKg: 6 * 2 * 0.8, LossWPerK: 1, TempC: log[0][9]}
		for g := range 6 {
			s.GroupSoC = append(s.GroupSoC, pouch.Curve.SoC(log[0][3+g]))
			s.GroupResistanceOhm = append(s.GroupResistanceOhm, c.ohm[g]/1000)
		}
		mean, worst, whole := compare(build(t, s), log, 0.8)
		t.Logf("%s: error of the terminal voltage a group over the first 80 %%: mean %.1f mV, worst %.1f mV; mean over the whole run %.1f mV",
			c.file, 1000*mean, 1000*worst, 1000*whole)
		near.Equal(t, c.file+" mean error", mean, 0, c.mean)
		near.Equal(t, c.file+" worst error", worst, 0, c.worst)
	}
}

// compare steps the bank along the log. The logged sum of groups stands above
// the logged terminal voltage by a calibration offset at rest, so the terminal
// voltage is compared by its change from rest.
func compare(b *Bank, log [][]float64, share float64) (mean, worst, whole float64) {
	total := 0.0
	for k := 1; k < len(log); k++ {
		total += -log[k][2] * (log[k][0] - log[k-1][0])
	}
	offset := log[0][1] - b.RestVolts()
	gone, n, all := 0.0, 0.0, 0.0
	for k := 1; k < len(log); k++ {
		amps, dt := log[k][2], log[k][0]-log[k-1][0]
		if dt <= 0 || amps > -1 && gone > 0 {
			continue
		}
		b.Step(amps, dt, 23, 0)
		gone -= amps * dt
		e := math.Abs(log[k][1]-offset-b.Volts()) / 6
		whole, all = whole+e, all+1
		if gone < share*total {
			mean, n, worst = mean+e, n+1, max(worst, e)
		}
	}
	return mean / n, worst, whole / all
}
