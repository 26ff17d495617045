package keep

import (
	"compress/gzip"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"ampstead/fit"
	"ampstead/internal/shared"
	"ampstead/rig"
	"ampstead/store"
)

// rows reads a table of measured data: each row by its column's name.
func rows(t testing.TB, name string) []map[string]float64 {
	t.Helper()
	f, err := os.Open(shared.Path(t, "data/battery/"+name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() // read only
	var r io.Reader = f
	if strings.HasSuffix(name, ".gz") {
		if r, err = gzip.NewReader(f); err != nil {
			t.Fatal(err)
		}
	}
	lines, err := csv.NewReader(r).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]float64
	for _, line := range lines[1:] {
		row := map[string]float64{}
		for k, text := range line {
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				row[lines[0][k]] = v
			}
		}
		list = append(list, row)
	}
	return list
}

// rest is a rested voltage with the charge counted so far, Ah.
type rest struct{ volt, ah, hours float64 }

// oneCell is a rig of a single cell, of the library or with a curve of its own.
func oneCell(t testing.TB, kind, curve string, ah float64) (*rig.Rig, *fit.Result) {
	t.Helper()
	cell := kind
	if curve != "" {
		cell = "own\n  own: {like: " + kind + ", curve: [" + curve + "]}"
	}
	text := fmt.Sprintf("about: {name: bench}\nbank:\n  cell: %s\n  series: 1\n  cell_capacity: %.4f Ah\n", cell, ah)
	file, err := rig.Parse("rig.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return file.Rig, res
}

// partial reads rests in an order that makes partial cycles of 20 to 60 % of the
// rated charge, a day apart, and returns what keep makes of them.
func partial(t testing.TB, r *rig.Rig, f *fit.Result, rests []rest, cycles int, seed uint64) Capacity {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 3))
	rated := f.Cell.RatedAh
	at := random.IntN(len(rests))
	var list []store.Reading
	for k, tries := 0, 0; k <= cycles && tries < 1000; tries++ {
		next := random.IntN(len(rests))
		if part := math.Abs(rests[next].ah-rests[at].ah) / rated; k > 0 && (part < 0.195 || part > 0.605) {
			continue
		}
		at = next
		x := rests[at]
		taken := start.Add(time.Duration(k) * 24 * time.Hour)
		list = append(list, store.Reading{ID: fmt.Sprint("r", k), Version: 1, Taken: taken, Groups: []*float64{&x.volt}, CountAh: &x.ah, RestH: &x.hours, Meter: "bench"})
		k++
	}
	res, err := Run(context.Background(), r, f, list, []store.Meter{{Name: "bench", StepV: 0.0001, ErrorV: 0.001}}, nil, Options{Now: start})
	if err != nil {
		t.Fatal(err)
	}
	return res.Capacity
}
