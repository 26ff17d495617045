package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSpread(t *testing.T) {
	cases := []struct {
		name       string
		want, size []float64
		from, to   float64
		expect     []float64
	}{
		{"far apart stays", []float64{10, 50, 90}, []float64{10, 10, 10}, 0, 200, []float64{10, 50, 90}},
		{"two at one place share the move", []float64{50, 50}, []float64{10, 10}, 0, 200, []float64{44, 56}},
		{"pushed in from the top", []float64{-20, -20}, []float64{10, 10}, 0, 200, []float64{0, 12}},
		{"pushed in from the foot", []float64{195, 198}, []float64{10, 10}, 0, 200, []float64{178, 190}},
		{"a cluster pushes its neighbour", []float64{50, 52, 60}, []float64{10, 10, 10}, 0, 200, []float64{42, 54, 66}},
		{"none", nil, nil, 0, 10, nil},
	}
	for _, c := range cases {
		got := spread(c.want, c.size, 2, c.from, c.to)
		if len(got) != len(c.expect) {
			t.Fatalf("%s: %v", c.name, got)
		}
		for i := range got {
			if math.Abs(got[i]-c.expect[i]) > 1e-9 {
				t.Errorf("%s: got %v, want %v", c.name, got, c.expect)
				break
			}
		}
	}
}

func TestSpreadKeepsOrderGapAndBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		want := rapid.SliceOfN(rapid.Float64Range(-100, 500), n, n).Draw(t, "want")
		size := rapid.SliceOfN(rapid.Float64Range(5, 60), n, n).Draw(t, "size")
		for i := 1; i < n; i++ {
			want[i] = math.Max(want[i], want[i-1])
		}
		const gap = 3.0
		to := total(size, gap) + rapid.Float64Range(0, 300).Draw(t, "spare")
		at := spread(want, size, gap, 0, to)
		for i := range at {
			if at[i] < -1e-9 || at[i]+size[i] > to+1e-9 {
				t.Fatalf("interval %d at %g leaves 0..%g", i, at[i], to)
			}
			if i > 0 && at[i] < at[i-1]+size[i-1]+gap-1e-9 {
				t.Fatalf("intervals %d and %d overlap: %v", i-1, i, at)
			}
		}
		if moved := nudgeBetter(at, want, size, gap, to); moved != "" {
			t.Fatal(moved)
		}
	})
}

// nudgeBetter looks for a single interval that could move alone and come closer
// to where it wants to be.
func nudgeBetter(at, want, size []float64, gap, to float64) string {
	for i := range at {
		lowest, highest := 0.0, to-size[i]
		if i > 0 {
			lowest = at[i-1] + size[i-1] + gap
		}
		if i+1 < len(at) {
			highest = at[i+1] - gap - size[i]
		}
		best := math.Max(lowest, math.Min(want[i], highest))
		if math.Abs(best-want[i]) < math.Abs(at[i]-want[i])-1e-6 {
			return "an interval could lie closer to its mark"
		}
	}
	return ""
}

func TestColumnsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 10).Draw(t, "n")
		low := rapid.SliceOfN(rapid.Float64Range(0, 10), n, n).Draw(t, "low")
		high := make([]float64, n)
		for i := range low {
			high[i] = low[i] + rapid.Float64Range(0, 5).Draw(t, "length")
		}
		cols := columns(low, high, 0.1)
		for i := range cols {
			for j := range i {
				if cols[i] == cols[j] && low[i] < high[j]+0.1 && low[j] < high[i]+0.1 {
					t.Fatalf("bars %d and %d share column %d", i, j, cols[i])
				}
			}
		}
	})
}
