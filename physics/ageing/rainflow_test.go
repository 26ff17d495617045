package ageing

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
)

// TestWorkedSequence is ASTM E1049-85, 5.4.4, in the order the rule closes its
// cycles.
func TestWorkedSequence(t *testing.T) {
	want := []Cycle{
		{3, -0.5, 0.5, -2, 1}, {4, -1, 0.5, 1, -3}, {4, 1, 1, -1, 3}, {8, 1, 0.5, -3, 5},
		{9, 0.5, 0.5, 5, -4}, {8, 0, 0.5, -4, 4}, {6, 1, 0.5, 4, -2},
	}
	got := Count([]float64{-2, 1, -3, 5, -1, 3, -4, 4, -2})
	if !slices.Equal(got, want) {
		t.Errorf("cycles\n got %v\nwant %v", got, want)
	}
	totals := []RangeCount{{3, 0.5}, {4, 1.5}, {6, 0.5}, {8, 1}, {9, 0.5}}
	if got := Totals(got); !slices.Equal(got, totals) {
		t.Errorf("totals %v, want %v", got, totals)
	}
}

func TestSeriesWithoutCycles(t *testing.T) {
	for _, series := range [][]float64{nil, {1}, {1, 1, 1}, {math.NaN()}} {
		if got := Count(series); got != nil {
			t.Errorf("%v holds %v", series, got)
		}
	}
	if got := Count([]float64{0, 1, 2, math.NaN(), 3}); !slices.Equal(got, []Cycle{{3, 1.5, 0.5, 0, 3}}) {
		t.Errorf("a rise is one half cycle, got %v", got)
	}
}

// byTheBook applies the rule to a whole list of peaks and valleys as the
// standard words it, moving a starting point along.
func byTheBook(points []float64) []Cycle {
	var cycles []Cycle
	left := slices.Clone(points)
	for read := 0; read < len(points); {
		read++
		for {
			unread := len(points) - read
			now := left[:len(left)-unread]
			n := len(now)
			if n < 3 {
				break
			}
			x, y := math.Abs(now[n-1]-now[n-2]), math.Abs(now[n-2]-now[n-3])
			if x < y {
				break
			}
			if n == 3 {
				cycles = append(cycles, between(now[0], now[1], 0.5))
				left = slices.Delete(slices.Clone(left), 0, 1)
			} else {
				cycles = append(cycles, between(now[n-3], now[n-2], 1))
				left = slices.Delete(slices.Clone(left), n-3, n-1)
			}
		}
	}
	for k := 1; k < len(left); k++ {
		cycles = append(cycles, between(left[k-1], left[k], 0.5))
	}
	return cycles
}

func TestCountingAsItArrivesIsCountingByTheBook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		series := rapid.SliceOf(rapid.Map(rapid.IntRange(-20, 20), func(i int) float64 { return float64(i) })).Draw(t, "series")
		want := byTheBook(TurningPoints(series))
		if got := Count(series); !slices.Equal(got, want) {
			t.Fatalf("got %v, want %v", got, want)
		}
	})
}

// TestEveryRiseAndFallIsCountedOnce: the ranges weighed by their counts add up to
// half the way travelled.
func TestEveryRiseAndFallIsCountedOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		series := rapid.SliceOf(rapid.Float64Range(0, 1)).Draw(t, "series")
		way, counted := 0.0, 0.0
		for k := 1; k < len(series); k++ {
			way += math.Abs(series[k] - series[k-1])
		}
		for _, c := range Count(series) {
			counted += c.Count * c.Range
		}
		if math.Abs(way/2-counted) > 1e-9*(1+way) {
			t.Fatalf("way %g, counted %g", way, counted)
		}
	})
}

func TestMemoryOfACounterIsBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Counter{Step: 0.05}
		most := 0
		for _, v := range rapid.SliceOfN(rapid.Float64Range(0, 1), 0, 500).Draw(t, "series") {
			c.Add(v, func(Cycle) {})
			most = max(most, len(c.points))
		}
		if most > 22 {
			t.Fatalf("%d points kept", most)
		}
	})
	c := Counter{Step: 0.05}
	for k := range 10000 { // a swing that dies slowly
		c.Add(0.5+math.Pow(-0.999, float64(k))/2, func(Cycle) {})
	}
	if len(c.points) > 22 {
		t.Errorf("%d points kept", len(c.points))
	}
}

func TestACounterCountsTheNextSeriesAfresh(t *testing.T) {
	var c Counter
	for range 2 {
		var got []Cycle
		keep := func(one Cycle) { got = append(got, one) }
		for _, v := range []float64{0, 1, 0.5} {
			c.Add(v, keep)
		}
		c.Finish(keep)
		if !slices.Equal(got, []Cycle{{1, 0.5, 0.5, 0, 1}, {0.5, 0.75, 0.5, 1, 0.5}}) {
			t.Errorf("got %v", got)
		}
	}
}

func BenchmarkCounter(b *testing.B) {
	c := Counter{Step: 0.01}
	k := 0
	for b.Loop() {
		c.Add(0.5+0.4*math.Sin(float64(k)*0.7)*math.Cos(float64(k)*0.013), func(Cycle) {})
		k++
	}
}
