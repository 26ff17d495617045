package store

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func feed(t testing.TB, b *Book, samples []Sample) {
	t.Helper()
	if err := b.AddSamples(context.Background(), samples); err != nil {
		t.Fatal(err)
	}
}

func chartOf(t testing.TB, b *Book, series string, from, to time.Time, points int) ([]Bucket, Span) {
	t.Helper()
	list, span, err := b.Chart(context.Background(), series, from, to, points)
	if err != nil {
		t.Fatal(err)
	}
	return list, span
}

// expected sums samples up by hand.
func expected(samples []Sample, from, to time.Time, width time.Duration) []Bucket {
	var list []Bucket
	first := time.Unix(0, from.UnixNano()/int64(width)*int64(width)).UTC()
	for at := first; at.Before(to); at = at.Add(width) {
		b := Bucket{From: at, Width: width, Min: math.Inf(1), Max: math.Inf(-1)}
		sum := 0.0
		for _, s := range samples {
			if !s.At.Before(at) && s.At.Before(at.Add(width)) {
				b.N++
				b.Min, b.Max = min(b.Min, s.Value), max(b.Max, s.Value)
				sum += s.Value
			}
		}
		if b.N > 0 {
			b.Mean = sum / float64(b.N)
			list = append(list, b)
		}
	}
	return list
}

func sameBuckets(t testing.TB, got, want []Bucket, tolerance float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d buckets, want %d", len(got), len(want))
	}
	for i := range got {
		g, w := got[i], want[i]
		off := math.Abs(g.Mean - w.Mean)
		g.Mean, w.Mean = 0, 0
		if g != w || !(off <= tolerance) {
			t.Fatalf("bucket %d: %+v, want %+v (means %g apart)", i, got[i], want[i], off)
		}
	}
}

// walk is three days of a millivolt meter with gaps.
func walk() []Sample {
	rng := rand.New(rand.NewPCG(3, 4))
	var list []Sample
	for at := yearStart.Add(-11 * time.Hour); at.Before(yearStart.Add(61 * time.Hour)); {
		list = append(list, Sample{at, "group_1_v", math.Round(3800+100*rng.NormFloat64()) / 1000})
		at = at.Add(time.Duration(20+rng.IntN(40)) * time.Second)
		if rng.IntN(200) == 0 {
			at = at.Add(time.Duration(rng.IntN(5)) * time.Hour)
		}
	}
	return list
}

// However values come, in order or not, once or twice, alone or in batches, the
// chart shows each of them once.
func TestChartsShowEachValueOnce(t *testing.T) {
	samples := walk()
	from, to := samples[0].At, samples[len(samples)-1].At.Add(time.Second)
	shuffled := append([]Sample(nil), samples...)
	rand.New(rand.NewPCG(5, 6)).Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
	onBoth(t, func(t *testing.T, p place) {
		b := p.open(t)
		feed(t, b, samples[:1000])
		for len(shuffled) > 0 {
			n := min(977, len(shuffled))
			feed(t, b, shuffled[:n])
			shuffled = shuffled[n:]
		}
		feed(t, b, samples)
		for _, c := range []struct {
			points int
			width  time.Duration
			span   Span
		}{{1500, 3 * time.Minute, Minute}, {300, 15 * time.Minute, Minute}, {80, time.Hour, Hour}, {20, 4 * time.Hour, Hour}, {5, 24 * time.Hour, Day}, {1, 7 * 24 * time.Hour, Day}} {
			list, span := chartOf(t, b, "group_1_v", from, to, c.points)
			if span != c.span {
				t.Errorf("%d points: made of %d, want %d", c.points, span, c.span)
			}
			sameBuckets(t, list, expected(samples, from, to, c.width), 1.5e-6)
		}
		list, span := chartOf(t, b, "group_1_v", samples[70].At, samples[90].At, 2000)
		if span != Raw || len(list) != 20 || list[0] != (Bucket{From: samples[70].At, N: 1, Min: samples[70].Value, Mean: samples[70].Value, Max: samples[70].Value}) {
			t.Errorf("few values: %d of span %d, %+v", len(list), span, list)
		}
		if err := b.Check(context.Background()); err != nil {
			t.Error(err)
		}
		shuffled = append([]Sample(nil), samples...)
	})
}

func TestOfTwoAtOneMillisecondTheFirstStays(t *testing.T) {
	b := place{where: t.TempDir()}.open(t)
	feed(t, b, []Sample{{yearStart, "x", 1}, {yearStart, "x", 2}, {yearStart, "y", 3}})
	feed(t, b, []Sample{{yearStart, "x", 4}})
	if list, _ := chartOf(t, b, "x", yearStart, yearStart.Add(time.Minute), 10); len(list) != 1 || list[0].Mean != 1 {
		t.Errorf("%+v", list)
	}
	if names, err := b.Series(context.Background()); err != nil || !reflect.DeepEqual(names, []string{"x", "y"}) {
		t.Errorf("%v, %v", names, err)
	}
}

func TestThinningKeepsTheSums(t *testing.T) {
	samples := walk()
	from, to := samples[0].At, samples[len(samples)-1].At.Add(time.Second)
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		feed(t, b, samples)
		before, _ := chartOf(t, b, "group_1_v", from, to, 1500)
		cut := yearStart.Add(30*time.Hour + 25*time.Minute)
		if hours, err := b.Thin(ctx, cut); err != nil || hours < 20 || hours > 42 {
			t.Fatalf("%d hours, %v", hours, err)
		}
		feed(t, b, samples) // what is thinned out is not counted again
		after, _ := chartOf(t, b, "group_1_v", from, to, 1500)
		sameBuckets(t, after, before, 0)
		if list, span := chartOf(t, b, "group_1_v", yearStart, yearStart.Add(10*time.Minute), 2000); span != Minute || len(list) == 0 {
			t.Errorf("narrow chart of a thinned time: %d buckets of span %d", len(list), span)
		}
		if list, span := chartOf(t, b, "group_1_v", cut, cut.Add(12*time.Hour), 2000); span != Raw || len(list) == 0 {
			t.Errorf("narrow chart after it: %d buckets of span %d", len(list), span)
		}
	})
}

func TestSamplesThatCannotBeStored(t *testing.T) {
	b := place{where: t.TempDir()}.open(t)
	good := Sample{yearStart, "bank_v", 50}
	for field, bad := range map[string]Sample{
		"value":  {yearStart, "bank_v", math.NaN()},
		"at":     {testNow.AddDate(1, 0, 0), "bank_v", 50},
		"series": {yearStart, "", 50},
	} {
		var invalid *Invalid
		if err := b.AddSamples(context.Background(), []Sample{good, bad}); !errors.As(err, &invalid) || invalid.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	if names, err := b.Series(context.Background()); err != nil || len(names) != 0 {
		t.Errorf("stored %v, %v", names, err)
	}
}

// Whatever is asked, no more buckets come than were asked for, in order, within
// the span, and together they hold every value.
func TestChartKeepsItsWord(t *testing.T) {
	b := place{where: t.TempDir()}.open(t)
	samples := walk()
	feed(t, b, samples)
	rapid.Check(t, func(t *rapid.T) {
		from := yearStart.Add(time.Duration(rapid.Int64Range(-1e6, 1e6).Draw(t, "from")) * time.Second)
		long := time.Duration(rapid.Int64Range(1, 1e9).Draw(t, "long")) * time.Second / 4
		points := rapid.IntRange(1, 2500).Draw(t, "points")
		list, _, err := b.Chart(context.Background(), "group_1_v", from, from.Add(long), points)
		if err != nil || len(list) > points {
			t.Fatalf("%d buckets for %d points, %v", len(list), points, err)
		}
		sum, last := 0, time.Time{}
		for _, c := range list {
			if !c.From.After(last) || c.From.Add(c.Width).Before(from) || !c.From.Before(from.Add(long)) {
				t.Fatalf("bucket at %v after %v, chart from %v", c.From, last, from)
			}
			if c.Mean < c.Min-1e-6 || c.Mean > c.Max+1e-6 || c.N < 1 {
				t.Fatalf("%+v", c)
			}
			sum, last = sum+c.N, c.From
		}
		inside := 0
		for _, s := range samples {
			if !s.At.Before(from) && s.At.Before(from.Add(long)) {
				inside++
			}
		}
		if sum < inside {
			t.Fatalf("%d values shown of %d", sum, inside)
		}
	})
}
