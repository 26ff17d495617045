package examples_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/physics/bank"
	"ampstead/rig"
)

// The invented logbook of Curlew comes from its own bank: fourteen months of visits
// a fortnight apart, read with a meter of 1 mV steps and 2 mV error; group 4 begins
// to leak 2 mA in the ninth month.
const (
	visits   = 30
	leaky    = 3 // group 4
	leakA    = 0.002
	leakFrom = 20 // visit
	errorV   = 0.002
	bankAh   = 167.0 // a little under what the test found
)

var firstVisit = time.Date(2025, 10, 4, 9, 30, 0, 0, time.UTC)

func TestLogOfCurlew(t *testing.T) {
	golden.Check(t, "../rigs/curlew/log.csv", curlewLog(t))
	text, ok := examples.Log("curlew")
	if !ok || len(text) == 0 {
		t.Error("the log does not come with the example")
	}
	if _, ok := examples.Log("dipper"); ok {
		t.Error("a log that nobody wrote")
	}
}

func curlewLog(t *testing.T) []byte {
	b, r := curlewBank(t), rand.New(rand.NewPCG(4, 12))
	var out bytes.Buffer
	out.WriteString("taken")
	for k := range b.Groups() {
		fmt.Fprintf(&out, ",group_%d_v", k+1)
	}
	out.WriteString(",bank_v,temperature_c,rested_h,counter_ah,meter,note\n")
	count := 0.0
	for k := range visits {
		if k == leakFrom {
			b.SetLeak(leaky, leakA)
		}
		warm := 12 + 9*math.Cos(2*math.Pi*(float64(k)*14-300)/365)
		target := 0.35 + 0.5*r.Float64()
		if k%6 == 3 {
			target = 0.9 // an almost full bank now and then
		}
		want := (target - b.SoCs()[0]) * bankAh
		for range 16 {
			b.Step(want/16, 3600, warm, 0)
		}
		count += want * (1 + 0.002*r.NormFloat64())
		for range (14*24 - 16) / 4 {
			b.Step(0, 4*3600, warm, 0)
		}
		writeVisit(&out, b, r, k, warm, count)
	}
	return out.Bytes()
}

func curlewBank(t *testing.T) *bank.Bank {
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	n := res.Cell.Series
	s := bank.Spec{Cell: res.Kind, Series: n, CapacityAh: bankAh, ResistanceOhm: res.Cell.Ohm, MassKg: 52, LossWPerK: 3, SoC: 0.6, TempC: 15,
		GroupCapacityAh: make([]float64, n), GroupSoC: make([]float64, n)}
	r := rand.New(rand.NewPCG(3, 12))
	for k := range n {
		s.GroupCapacityAh[k] = bankAh * (1 + 0.006*r.NormFloat64())
		s.GroupSoC[k] = s.SoC + 0.002*r.NormFloat64()
	}
	b, err := bank.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// notes are what its owners wrote beside some readings.
var notes = map[int]string{0: "first visit", 11: "frost in the night; the pad was on", 20: "read by torch; hands cold", 24: "after a week on the hookup"}

func writeVisit(out *bytes.Buffer, b *bank.Bank, r *rand.Rand, k int, warm, count float64) {
	at := firstVisit.Add(time.Duration(k)*14*24*time.Hour + time.Duration(r.IntN(20)-10)*15*time.Minute)
	out.WriteString(at.Format("2006-01-02 15:04"))
	sum := 0.0
	for _, v := range b.Voltages() {
		sum += v
		fmt.Fprintf(out, ",%.3f", v+errorV*r.NormFloat64())
	}
	rested := []int{10, 12, 16, 24}[r.IntN(4)]
	fmt.Fprintf(out, ",%.2f,%.0f,%d,%.1f,cell meter,%s\n", sum+0.01*r.NormFloat64(), warm, rested, count, notes[k])
}
