package prove_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strconv"
	"testing"

	"ampstead/benchlog"
	"ampstead/prove"
)

// longLog writes a log of n rows, one a second: six groups cycled between full
// and empty at C/2 with noise, rests between.
func longLog(n int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	b := bytes.NewBufferString("time_s,voltage_v,current_a,g1_v,g2_v,g3_v,g4_v,g5_v,g6_v,temperature_c\n")
	soc, amps := 0.98, -25.0
	for k := range n {
		now := 0.0
		if k%8000 < 7000 {
			now = amps
		}
		if soc += now / 3600 / 50; soc < 0.02 {
			amps = 25
		} else if soc > 0.98 {
			amps = -25
		}
		sum := 0.0
		line := ""
		for g := range 6 {
			v := 3.2 + 0.9*soc - 0.2*math.Exp(-30*soc) + 0.002*now + 0.0005*r.NormFloat64() - 0.003*float64(g)
			sum += v
			line += "," + strconv.FormatFloat(v, 'f', 4, 64)
		}
		fmt.Fprintf(b, "%d,%.3f,%.3f%s,%.1f\n", k, sum, now+0.01*r.NormFloat64(), line, 25.0)
	}
	return b.Bytes()
}

// The issue asks for a million rows in under 5 s on two cores.
func BenchmarkMillionRows(b *testing.B) {
	text := longLog(1_000_000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := prove.Run(context.Background(), "long.csv", bytes.NewReader(text), benchlog.Options{}, prove.Options{Cell: "nmc532"}); err != nil {
			b.Fatal(err)
		}
	}
}

// Memory must not grow with the log: what is live at the end of four times as many
// rows is about the same.
func TestMemoryIsBounded(t *testing.T) {
	live := func(n int) float64 {
		text := longLog(n)
		res := runText(t, "long.csv", text, prove.Options{Cell: "nmc532"})
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		runtime.KeepAlive(res)
		runtime.KeepAlive(text)
		return float64(m.HeapAlloc) - float64(len(text))
	}
	few := live(10_000)
	if many := live(40_000); many > few+8e6 {
		t.Errorf("%.1f MB live after 40,000 rows, %.1f MB after 10,000", many/1e6, few/1e6)
	}
}
