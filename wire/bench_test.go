package wire_test

import (
	"testing"

	"ampstead/wire"
)

func BenchmarkCurlew(b *testing.B) {
	r, f := load(b, "curlew")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wire.Run(r, f, wire.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
