package prove_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"math"
	"sort"
	"strings"
	"testing"
)

// lines returns the lines of a packed file, header first.
func lines(t testing.TB, name string) []string {
	t.Helper()
	z, err := gzip.NewReader(bytes.NewReader(log(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSpace(string(text)), "\n")
}

func joined(list []string) []byte { return []byte(strings.Join(list, "\n") + "\n") }

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

func middle(list []float64) float64 {
	sorted := append([]float64(nil), list...)
	sort.Float64s(sorted)
	return (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
}

func span(list []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range list {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
