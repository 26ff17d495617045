package store

import (
	"bytes"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// values are of meters, of programs, and of anything.
func drawValues(t *rapid.T) []float64 {
	draw := rapid.OneOf(
		rapid.Map(rapid.IntRange(-70000, 70000), func(n int) float64 { return float64(n) / 1000 }),
		rapid.Map(rapid.IntRange(-70000, 70000), func(n int) float64 { return float64(n) / 10 }),
	)
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 1:
		draw = rapid.Map(rapid.Float32Range(-1e6, 1e6), func(v float32) float64 { return float64(v) })
	case 2:
		draw = rapid.Float64Range(-1e6, 1e6)
	}
	return rapid.SliceOfN(draw, 0, 400).Draw(t, "values")
}

func TestPointsPackWithoutLoss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, at := int64(474_000)*hourMS, int64(-1)
		var points []point
		for _, v := range drawValues(t) {
			if at += rapid.SampledFrom([]int64{1, 10, 10, 10, 10, 1000, 9999}).Draw(t, "step"); at >= hourMS {
				break
			}
			points = append(points, point{from + at, v})
		}
		got, err := unpackPoints(packPoints(points, from), from)
		if err != nil || !slices.Equal(got, points) {
			t.Fatalf("%v\n%v, %v", points, got, err)
		}
	})
}

func TestBucketsPackWithoutLoss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []point
		for i, v := range drawValues(t) {
			points = append(points, point{int64(474_000)*hourMS + int64(i)*9000, v})
		}
		list := fold(points, minutes.ms)
		exactly := slices.Clone(list)
		got, err := unpackBuckets(packBuckets(list, 474_000*60), 474_000*60, 60)
		if err != nil || !reflect.DeepEqual(got, append([]bucket{}, list...)) {
			t.Fatalf("%v\n%v, %v", list, got, err)
		}
		for i := range list {
			if math.Abs(list[i].mean-exactly[i].mean) > 0.5e-3 {
				t.Fatalf("mean %g became %g", exactly[i].mean, list[i].mean)
			}
		}
	})
}

// What a meter tells, each 10 s, takes about a byte a value.
func TestPackedSize(t *testing.T) {
	var points []point
	for i := range 360 {
		points = append(points, point{int64(i) * 10_000, 3.8 + math.Round(20*math.Sin(float64(i)))/1000})
	}
	for i := range points {
		points[i].v = math.Round(points[i].v*1000) / 1000
	}
	if n := len(packPoints(points, 0)); n > 400 {
		t.Errorf("%d bytes for 360 values", n)
	}
}

func TestAnyChangedByteIsNoticed(t *testing.T) {
	blob := packPoints([]point{{1000, 3.8}, {2000, 3.81}, {3000, 3.79}}, 0)
	for i := range blob {
		changed := bytes.Clone(blob)
		changed[i] ^= 0x10
		if got, err := unpackPoints(changed, 0); err == nil {
			t.Errorf("byte %d: read as %v", i, got)
		}
	}
	for n := range blob {
		if _, err := unpackPoints(blob[:n], 0); err == nil {
			t.Errorf("cut to %d bytes: no error", n)
		}
	}
}

// Bytes with a right checksum but any content are refused or read in order, never
// with a panic and never with more memory than their own size calls for.
func FuzzUnpack(f *testing.F) {
	for _, blob := range [][]byte{
		packPoints([]point{{1000, 3.8}, {2000, 3.81}, {3000, 3.79}, {3600, 1.0 / 3}}, 0),
		packBuckets([]bucket{{0, 6, 3.8, 3.81, 3.82}, {1, 6, 3.8, 3.81, 3.82}}, 0),
	} {
		f.Add(blob[1 : len(blob)-4])
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		blob := seal(append([]byte{format}, content...))
		if points, err := unpackPoints(blob, 0); err == nil {
			if !slices.IsSortedFunc(points, func(a, b point) int { return int(a.at - b.at) }) {
				t.Errorf("not in order: %v", points)
			}
			for _, p := range points {
				if p.at < 0 || p.at >= hourMS {
					t.Errorf("outside its hour: %v", p)
				}
			}
		}
		if list, err := unpackBuckets(blob, 0, 60); err == nil && len(list) > 60 {
			t.Errorf("%d buckets", len(list))
		}
	})
}
