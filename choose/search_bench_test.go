package choose

import (
	"context"
	"testing"
)

// BenchmarkDesignYear is one design more, with its look ahead.
func BenchmarkDesignYear(b *testing.B) {
	r := load(b, "curlew")
	list, err := variants(context.Background(), r)
	if err != nil {
		b.Fatal(err)
	}
	s, err := newSearcher(context.Background(), r, list, Options{})
	if err != nil {
		b.Fatal(err)
	}
	designs := s.spread(400)
	b.ReportAllocs()
	k := 0
	for b.Loop() {
		if _, err := s.point(context.Background(), designs[k%len(designs)]); err != nil {
			b.Fatal(err)
		}
		k++
	}
}

// BenchmarkSearch1000 is a whole search on two cores.
func BenchmarkSearch1000(b *testing.B) {
	r := load(b, "curlew")
	list, err := variants(context.Background(), r)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		_, s, err := search(context.Background(), r, list, Options{Designs: 1000, Workers: 2})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(s.Seconds, "s/search")
	}
}
