package benchlog

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"runtime"
	"strconv"
	"testing"
)

// synthetic writes a log of n rows as it is read: a pack of six groups that is
// discharged, rests and is charged in turn.
type synthetic struct {
	n, row int
	left   []byte
	text   []byte
}

func (s *synthetic) Read(p []byte) (int, error) {
	if len(s.left) == 0 {
		if s.row >= s.n {
			return 0, io.EOF
		}
		s.text = s.text[:0]
		if s.row == 0 {
			s.text = append(s.text, "time_s,voltage_v,current_a,group1_v,group2_v,group3_v,group4_v,group5_v,group6_v,temperature1_c,temperature2_c\n"...)
		}
		for range min(1000, s.n-s.row) {
			s.add()
		}
		s.left = s.text
	}
	n := copy(p, s.left)
	s.left = s.left[n:]
	return n, nil
}

func (s *synthetic) add() {
	phase := float64(s.row%7200) / 7200
	a, soc := 0.0, 0.9
	switch {
	case phase < 0.4:
		a, soc = -30, 0.9-1.5*phase
	case phase < 0.5:
		soc = 0.3
	case phase < 0.9:
		a, soc = 30, 0.3+1.5*(phase-0.5)
	}
	v := 3.4 + 0.8*soc + a*0.0015
	s.text = fmt.Appendf(s.text, "%d.0,%.3f,%.2f", s.row, 6*v, a)
	for g := range 6 {
		s.text = fmt.Appendf(s.text, ",%.3f", v+0.002*float64(g)+0.0005*math.Sin(float64(s.row)))
	}
	s.text = fmt.Appendf(s.text, ",%.1f,%.1f\n", 25+5*phase, 24+6*phase)
	s.row++
}

func BenchmarkRead1M(b *testing.B) {
	const rows = 1_000_000
	text, err := io.ReadAll(&synthetic{n: rows})
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		sum, err := Read(context.Background(), "bench", bytes.NewReader(text), Options{}, func(*Row) error { return nil })
		if err != nil || sum.Rows != rows {
			b.Fatal(sum.Rows, err)
		}
	}
	b.ReportMetric(rows*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

// TestMemoryStaysBounded reads 300 000 rows from a stream; what is alive while
// the last rows pass must not grow with the file.
func TestMemoryStaysBounded(t *testing.T) {
	const rows = 300_000
	var before, now runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	top, seen := uint64(0), 0
	sum, err := Read(context.Background(), "stream", &synthetic{n: rows}, Options{}, func(*Row) error {
		if seen++; seen%50_000 == 0 {
			runtime.GC()
			runtime.ReadMemStats(&now)
			top = max(top, now.HeapAlloc-min(now.HeapAlloc, before.HeapAlloc))
		}
		return nil
	})
	if err != nil || sum.Rows != rows {
		t.Fatalf("%d rows, %v", sum.Rows, err)
	}
	if top > 16<<20 {
		t.Errorf("%d MB alive while reading", top>>20)
	}
}

// TestHeldRowsStayBounded reads a log that tells no sign for longer than rows
// are held back.
func TestHeldRowsStayBounded(t *testing.T) {
	r, w := io.Pipe()
	const rows = 260_000
	go func() {
		defer w.Close()
		out := bufio.NewWriterSize(w, 1<<16)
		defer out.Flush()
		out.WriteString("time_s,voltage_v,current_a\n")
		for i := range rows {
			out.WriteString(strconv.Itoa(i) + ",3.7000,0.00" + strconv.Itoa(i%3) + "\n")
		}
	}()
	sum, err := Read(context.Background(), "rest", r, Options{}, func(*Row) error { return nil })
	if err != nil || sum.Rows != rows {
		t.Fatalf("%d rows, %v", sum.Rows, err)
	}
	if sum.Layout.SignHow != "assumed: nothing in the file tells it" {
		t.Errorf("sign: %s", sum.Layout.SignHow)
	}
}
