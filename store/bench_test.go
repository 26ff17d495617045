package store

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// Of a year: an instant each 10 s, 3.15 million, of 14 groups to the millivolt,
// the bank's voltage, its current and two temperatures.
const (
	yearInstants = 365 * 8640
	yearGroups   = 14
)

var yearStart = time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)

// yearOf yields the year's instants as batches.
type yearOf struct {
	rng   *rand.Rand
	names []string
	at    int
}

func newYear() *yearOf {
	y := &yearOf{rng: rand.New(rand.NewPCG(1, 2))}
	for g := range yearGroups {
		y.names = append(y.names, fmt.Sprintf("group_%d_v", g+1))
	}
	y.names = append(y.names, "bank_v", "current_a", "temperature_1_c", "temperature_2_c")
	return y
}

func (y *yearOf) next(instants int) []Sample {
	batch := make([]Sample, 0, instants*len(y.names))
	for range min(instants, yearInstants-y.at) {
		t := float64(y.at) / 8640 * 2 * math.Pi
		at := yearStart.Add(time.Duration(y.at)*10*time.Second + time.Duration(y.rng.IntN(40))*time.Millisecond)
		base, sum := 3.7+0.2*math.Sin(t), 0.0
		for g := range yearGroups {
			v := math.Round(1000*(base+0.002*float64(g)+0.001*y.rng.NormFloat64())) / 1000
			sum += v
			batch = append(batch, Sample{at, y.names[g], v})
		}
		for i, v := range []float64{math.Round(sum*100) / 100, math.Round(100*(20*math.Cos(t)+y.rng.NormFloat64())) / 100,
			math.Round(10*(18+5*math.Sin(t))) / 10, math.Round(10*(17+4*math.Sin(t))) / 10} {
			batch = append(batch, Sample{at, y.names[yearGroups+i], v})
		}
		y.at++
	}
	return batch
}

// ingestYear takes the time of the store alone.
func ingestYear(tb testing.TB, where string, instants int) time.Duration {
	tb.Helper()
	ctx := context.Background()
	b, err := Open(ctx, where, Options{Rig: "curlew"})
	if err != nil {
		tb.Fatal(err)
	}
	defer b.Close()
	var took time.Duration
	for y := newYear(); y.at < yearInstants; {
		batch := y.next(instants)
		start := time.Now()
		if err := b.AddSamples(ctx, batch); err != nil {
			tb.Fatal(err)
		}
		took += time.Since(start)
	}
	start := time.Now()
	if err := b.Close(); err != nil {
		tb.Fatal(err)
	}
	return took + time.Since(start)
}

func BenchmarkIngestYearServer(b *testing.B) {
	for range b.N {
		b.ReportMetric(ingestYear(b, server(b), 8640).Seconds(), "s/year")
	}
}

// BenchmarkIngestYear stores the year day by day.
func BenchmarkIngestYear(b *testing.B) {
	for range b.N {
		folder := b.TempDir()
		took := ingestYear(b, folder, 8640)
		info, err := os.Stat(filepath.Join(folder, FileName))
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(took.Seconds(), "s/year")
		b.ReportMetric(float64(info.Size())/1e6, "MB/year")
	}
}

// What is done with a year once it is there.
func BenchmarkYear(b *testing.B)       { benchmarkYear(b, b.TempDir()) }
func BenchmarkYearServer(b *testing.B) { benchmarkYear(b, server(b)) }

func benchmarkYear(b *testing.B, where string) {
	ingestYear(b, where, 8640)
	ctx := context.Background()
	book, err := Open(ctx, where, Options{Rig: "curlew"})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	b.Run("Check", func(b *testing.B) {
		for range b.N {
			if err := book.Check(ctx); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("Backup", func(b *testing.B) {
		for range b.N {
			if err := book.Backup(ctx, filepath.Join(b.TempDir(), "kept.sqlite")); err != nil {
				b.Fatal(err)
			}
		}
	})
	middle := yearStart.AddDate(0, 6, 0)
	for _, span := range []struct {
		name string
		long time.Duration
	}{{"Hour", time.Hour}, {"HalfDay", 12 * time.Hour}, {"Day", 24 * time.Hour}, {"Week", 7 * 24 * time.Hour}, {"FortyDays", 40 * 24 * time.Hour}, {"HalfYear", 182 * 24 * time.Hour}, {"Year", 365 * 24 * time.Hour}} {
		for _, points := range []int{800, 2000} {
			b.Run(fmt.Sprintf("%s/%d", span.name, points), func(b *testing.B) {
				from := middle.Add(-span.long / 2)
				for range b.N {
					list, _, err := book.Chart(ctx, "group_4_v", from, from.Add(span.long), points)
					if err != nil || len(list) == 0 || len(list) > points {
						b.Fatal(len(list), err)
					}
				}
			})
		}
	}
}

// BenchmarkAdd stores one reading of 14 groups, on the disk when it returns.
func BenchmarkAdd(b *testing.B) {
	ctx := context.Background()
	book, err := Open(ctx, b.TempDir(), Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	for i := range b.N {
		if _, _, err := book.Add(ctx, sampleReading(fmt.Sprintf("r%d", i))); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAddInstant stores one instant of live values into a running hour.
func BenchmarkAddInstant(b *testing.B) {
	ctx := context.Background()
	book, err := Open(ctx, b.TempDir(), Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	y := newYear()
	for range b.N {
		if err := book.AddSamples(ctx, y.next(1)); err != nil {
			b.Fatal(err)
		}
	}
}

func sampleReading(id string) Reading {
	r := Reading{ID: id, Taken: yearStart}
	for g := range yearGroups {
		v := 3.8 + float64(g)/1000
		r.Groups = append(r.Groups, &v)
	}
	return r
}
