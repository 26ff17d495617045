package synthetic

import (
	"testing"
)

func BenchmarkNew(b *testing.B) {
	m := inverness(b)
	for b.Loop() {
		if _, err := New(&m, 2026); err != nil {
			b.Fatal(err)
		}
	}
}

// A year of a prepared place.
func BenchmarkYear(b *testing.B) {
	m := inverness(b)
	g, err := New(&m, 2026)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		g.Year(1, n)
	}
}

// Fourteen days out of a year, as a stay on a route needs them.
func BenchmarkFortnight(b *testing.B) {
	m := inverness(b)
	g, err := New(&m, 2026)
	if err != nil {
		b.Fatal(err)
	}
	for n := 0; b.Loop(); n++ {
		g.Part(1, n, 100, 113)
	}
}
