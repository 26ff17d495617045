package prove_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"sync"
	"testing"

	"ampstead/benchlog"
	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/prove"
)

// The files of measured data and what SOURCES.md beside them says of each.
const (
	slowModule = "ev2013-6group-discharge-19.5a.csv.gz"
	fastModule = "ev2013-6group-discharge-130a.csv.gz"
	pulseCell  = "ev2013-cell-hppc-25c.csv.gz"
	slowCycles = "ev2013-cell-c15-cycles-a.csv.gz"
	longRest   = "ev2013-cell-48h-rest-a.csv.gz"
	nasa       = "nasa-b0005-discharge.csv.gz"
	lfpCharges = "lfp102-cell1-charges.csv.gz"
	smallPulse = "lgm50-pulse-25c-cells123.csv.gz"
	smallSlow  = "lgm50-discharge-0.1c-25c.csv.gz"
)

// done keeps each file's result with usual options: tests ask for it again.
var done sync.Map

func log(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(shared.Path(t, "data/battery/"+name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// run measures a file with no options but the cell, once for all tests.
func run(t testing.TB, name, cell string) *prove.Result {
	t.Helper()
	if res, ok := done.Load(name + cell); ok {
		return res.(*prove.Result)
	}
	res := runText(t, name, log(t, name), prove.Options{Cell: cell})
	done.Store(name+cell, res)
	return res
}

func runText(t testing.TB, name string, text []byte, o prove.Options) *prove.Result {
	t.Helper()
	res, err := prove.Run(context.Background(), name, bytes.NewReader(text), benchlog.Options{}, o)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return res
}

func warned(res *prove.Result, id string) bool {
	for _, w := range res.Warnings {
		if w.ID == id {
			return true
		}
	}
	return false
}

// Tolerances are those of SOURCES.md: 0.5 % of charge and energy.
func TestCapacityOfEveryDischarge(t *testing.T) {
	cases := []struct {
		file, cell string
		ah, wh     float64 // wh 0: no known answer
		how        string
	}{
		{slowModule, "lmo-blend-pouch", 54.90, 1271.0, "discharge to the limit"},
		{fastModule, "lmo-blend-pouch", 55.40, 1230.4, "discharge to the limit"},
		{pulseCell, "lmo-blend-pouch", 30.50, 0, "discharge to the limit"},
		{slowCycles, "lmo-blend-pouch", 30.01, 0, "discharge to the limit"},
		{longRest, "lmo-blend-pouch", 29.36, 0, "discharge to the limit"},
		{nasa, "nickel-rich-18650", 0, 0, "discharge to the limit"},
		{smallSlow, "nmc811-21700", 4.945, 18.08, "discharge to the limit"},
		{lfpCharges, "lfp", 67.52, 0, "charge to the limit"},
	}
	for _, c := range cases {
		res := run(t, c.file, c.cell)
		if res.CapacityHow != c.how {
			t.Errorf("%s: capacity by %q, want %q", c.file, res.CapacityHow, c.how)
		}
		if c.ah > 0 {
			near.Relative(t, c.file+" charge", res.CapacityAh, c.ah, 0.005)
		}
		if c.wh > 0 {
			near.Relative(t, c.file+" energy", res.EnergyWh, c.wh, 0.005)
		}
		if !(res.CapacityErr > 0 && res.CapacityErr < 0.03*res.CapacityAh) {
			t.Errorf("%s: error of %g Ah on %g Ah", c.file, res.CapacityErr, res.CapacityAh)
		}
	}
}

func TestNothingIsLostOfTheFiles(t *testing.T) {
	rows := map[string]int{slowModule: 13870, fastModule: 2209, pulseCell: 13248, slowCycles: 6711, longRest: 5133, nasa: 8281, lfpCharges: 12428}
	for name, n := range rows {
		res := run(t, name, cellOf[name])
		if res.Rows != n || res.UnreadAll != 0 {
			t.Errorf("%s: %d rows read, %d not; want %d", name, res.Rows, res.UnreadAll, n)
		}
		if len(res.Chart.Time) > 2000 || len(res.Chart.Time) < 200 {
			t.Errorf("%s: chart of %d instants", name, len(res.Chart.Time))
		}
	}
}

// cellOf is the cell of each file's library.
var cellOf = map[string]string{
	slowModule: "lmo-blend-pouch", fastModule: "lmo-blend-pouch", pulseCell: "lmo-blend-pouch", slowCycles: "lmo-blend-pouch",
	longRest: "lmo-blend-pouch", nasa: "nickel-rich-18650", lfpCharges: "lfp", smallPulse: "nmc811-21700", smallSlow: "nmc811-21700",
}

// The published capacity is the integral up to the last row below −0.1 A, within
// 0.01 %; rows that overshot the cut-off count.
func TestPublishedCapacityOfEveryCycle(t *testing.T) {
	want := map[int]float64{}
	for _, row := range shared.Rows(t, "data/battery/nasa-b0005-capacity.csv") {
		want[int(number(t, row["cycle"]))] = number(t, row["capacity_ah"])
	}
	res := run(t, nasa, cellOf[nasa])
	if len(res.Cycles) != 28 {
		t.Fatalf("%d discharges, want 28", len(res.Cycles))
	}
	for _, c := range res.Cycles {
		if !c.Full || c.Kind != "discharge" {
			t.Errorf("cycle %d: %s, full %v", c.Number, c.Kind, c.Full)
		}
		near.Equal(t, "cycle "+strconv.Itoa(c.Number), c.CapacityAh, want[c.Number], 1e-4*want[c.Number]+0.5e-4)
	}
	near.Equal(t, "cycle 1", res.Cycles[0].CapacityAh, 1.8565, 0.0002)
	near.Equal(t, "whole", res.CapacityAh, res.Cycles[27].CapacityAh, 0)
}

// Stated against integrated: mean −0.07 %, worst 0.33 %.
func TestStatedChargeOfEveryCharge(t *testing.T) {
	stated := map[int]float64{}
	for _, row := range shared.Rows(t, "data/battery/lfp102-cell1-capacity.csv") {
		stated[int(number(t, row["cycle"]))] = number(t, row["charged_ah"])
	}
	res := run(t, lfpCharges, cellOf[lfpCharges])
	if len(res.Cycles) != 119 {
		t.Fatalf("%d charges, want 119", len(res.Cycles))
	}
	mean := 0.0
	for _, c := range res.Cycles {
		off := c.ChargeAh/stated[c.Number] - 1
		mean += off / 119
		near.Equal(t, "cycle "+strconv.Itoa(c.Number), off, 0, 0.0034)
		if !c.Full {
			t.Errorf("cycle %d is not full", c.Number)
		}
	}
	near.Equal(t, "mean", mean, -0.0007, 0.00015)
	near.Relative(t, "first", res.Cycles[0].CapacityAh, 102.54, 0.005)
}

func TestChargesAndDischargesOfTheCell(t *testing.T) {
	cases := []struct {
		file string
		ah   []float64 // by cycle, the tester's
	}{
		{slowCycles, []float64{30.09, 29.99, 30.04, 29.95, 30.01, 29.80}},
		{longRest, []float64{29.84, 29.36}},
		{pulseCell, []float64{30.18, 30.50}},
		{smallSlow, []float64{4.945, 4.89}},
	}
	for _, c := range cases {
		res := run(t, c.file, cellOf[c.file])
		if len(res.Cycles) != len(c.ah) {
			t.Errorf("%s: %d cycles, want %d", c.file, len(res.Cycles), len(c.ah))
			continue
		}
		for k, ah := range c.ah {
			near.Relative(t, fmt.Sprintf("%s cycle %d", c.file, k+1), res.Cycles[k].ChargeAh, ah, 0.005)
			if !res.Cycles[k].Full {
				t.Errorf("%s cycle %d is not full", c.file, k+1)
			}
		}
	}
}

func TestRestVoltagesBeforeThePulses(t *testing.T) {
	want := []float64{4.182, 4.086, 4.048, 3.984, 3.949, 3.909, 3.869, 3.802, 3.723, 3.531}
	var got []float64
	for _, seg := range run(t, pulseCell, cellOf[pulseCell]).Segments {
		if seg.Kind == "rest" && seg.To-seg.From > 3000 {
			got = append(got, seg.ToV)
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%d rests of an hour, want %d", len(got), len(want))
	}
	for k := range want {
		near.Equal(t, fmt.Sprintf("rest %d", k+1), got[k], want[k], 0.0005)
	}
}

func TestResultsCanBeWritten(t *testing.T) {
	for name, kind := range cellOf {
		if _, err := json.Marshal(run(t, name, kind)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTemperatureRise(t *testing.T) {
	near.Equal(t, "19.5 A", *run(t, slowModule, cellOf[slowModule]).RiseK, 1.5, 0.01)
	near.Equal(t, "130 A", *run(t, fastModule, cellOf[fastModule]).RiseK, 11.5, 0.5) // one digit of the sensor
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
