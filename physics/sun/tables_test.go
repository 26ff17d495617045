package sun

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/shared"
)

// rows reads a reference table, a map from column to text for each row.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(shared.Path(t, "data/weather/"+name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	var list []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for k, text := range line {
			row[all[0][k]] = text
		}
		list = append(list, row)
	}
	return list
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func instant(t testing.TB, text string) Instant {
	t.Helper()
	v, err := ParseTime(text)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// same is near.Equal for properties.
func same(t *rapid.T, name string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s = %.9g, want %.9g within %g", name, got, want, tol)
	}
}
