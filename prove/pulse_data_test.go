package prove_test

import (
	"fmt"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/physics/cell"
	"ampstead/physics/measure"
	"ampstead/prove"
)

// Tolerance 10 %: which sample is the start of a step matters.
const ohmTolerance = 0.10

func TestResistanceOfEveryGroup(t *testing.T) {
	cases := []struct {
		file string
		ohm  []float64 // mΩ, 10 s
	}{
		{slowModule, []float64{1.08, 1.28, 1.23, 1.13, 1.28, 1.33}},
		{fastModule, []float64{0.92, 1.12, 1.05, 1.00, 1.09, 1.14}},
	}
	for _, c := range cases {
		res := run(t, c.file, cellOf[c.file])
		if len(res.Pulses) != 1 || len(res.Pulses[0].Groups) != 6 {
			t.Fatalf("%s: steps %+v", c.file, res.Pulses)
		}
		sum := 0.0
		for g, want := range c.ohm {
			near.Equal(t, fmt.Sprintf("%s group %d", c.file, g+1), 1000*res.Pulses[0].Groups[g], want, 0.006)
			sum += want
		}
		// Interconnections are about 0.4 mΩ in all.
		near.Relative(t, c.file+" whole", 1000*res.Resistance, sum+0.4, ohmTolerance)
	}
}

func TestResistanceByCharge(t *testing.T) {
	one := []float64{1.90, 1.67, 1.67, 1.60, 1.60, 1.60, 1.63, 1.60, 1.63, 1.73}
	ten := []float64{2.60, 2.13, 2.20, 2.00, 2.03, 2.03, 2.03, 2.03, 2.07, 2.53}
	thirty := []float64{3.33, 2.63, 2.87, 2.47, 2.53, 2.53, 2.53, 2.53, 2.57, 3.97}
	res := run(t, pulseCell, cellOf[pulseCell])
	k := 0
	for _, p := range res.Pulses {
		if p.Amps > -29 || p.Amps < -31 {
			continue
		}
		if k == len(one) {
			t.Fatal("more than ten pulses of 30 A")
		}
		name := fmt.Sprintf("pulse %d", k+1)
		near.Equal(t, name+" 1 s", 1000*p.Ohm1, one[k], 0.05)
		near.Equal(t, name+" 10 s", 1000*p.Ohm10, ten[k], 0.05)
		near.Equal(t, name+" 30 s", 1000*p.Ohm30, thirty[k], 0.05)
		near.Equal(t, name+" charge", p.SoC, 1-0.1*float64(k), 0.06)
		k++
	}
	if k != len(one) {
		t.Errorf("%d pulses of 30 A, want ten", k)
	}
	near.Relative(t, "about half full", 1000*res.Resistance, 2.03, 0.02)
}

// The pulses of three cells follow one another; the voltage of the first rows
// was read before the current showed.
func TestResistanceFromCellToCell(t *testing.T) {
	want := map[int][3]float64{0: {37.0, 35.1, 31.8}, 2: {36.4, 36.2, 32.0}, 4: {36.2, 34.0, 31.6}, 6: {37.5, 32.6, 33.0}, 8: {47.3, 41.6, 42.8}}
	res := run(t, smallPulse, cellOf[smallPulse])
	var down []prove.Pulse
	for _, p := range res.Pulses {
		if p.Amps < 0 {
			down = append(down, p)
		}
	}
	if len(down) != 27 {
		t.Fatalf("%d discharge pulses, want 27", len(down))
	}
	for place, cells := range want {
		for no, ohm := range cells {
			near.Relative(t, fmt.Sprintf("cell %d at place %d", no+1, place), 1000*down[9*no+place].Ohm10, ohm, 0.03)
		}
	}
	near.Relative(t, "mean about half full", 1000*res.Resistance, (36.2+34.0+31.6)/3, 0.03)
	near.Equal(t, "charge at 3.701 V", down[4].SoC, 0.5, 0.03)
}

// Tables of pulses of retired cells: the same formula on their columns.
func TestRetiredCells(t *testing.T) {
	cases := []struct {
		file             string
		median, low, top float64 // mΩ after 5 s at half of the rated capacity
		cell             string
		restV            float64 // mean at 30 % of rated
		flat             bool
	}{
		{"retired-nmc21-pulses.csv", 2.55, 2.40, 4.38, "nmc532", 3.619, false},
		{"retired-lfp35-pulses.csv", 2.85, 2.51, 3.39, "lfp", 3.301, true},
	}
	for _, c := range cases {
		var ohms, rests []float64
		for _, row := range shared.Rows(t, "data/battery/"+c.file) {
			soc, rest := number(t, row["soc_of_nominal"]), number(t, row["rest_v_10min"])
			if soc > 0.29 && soc < 0.31 {
				rests = append(rests, rest)
			}
			if soc > 0.49 && soc < 0.51 {
				ohm, _ := measure.OhmOf(rest, number(t, row["dis_0p5c_v_end"]), 0.0001, -0.5*number(t, row["nominal_ah"]))
				ohms = append(ohms, 1000*ohm)
			}
		}
		low, top := span(ohms)
		near.Relative(t, c.file+" median", middle(ohms), c.median, 0.03)
		near.Relative(t, c.file+" lowest", low, c.low, 0.03)
		near.Relative(t, c.file+" highest", top, c.top, 0.03)
		near.Equal(t, c.file+" rest", mean(rests), c.restV, 0.001)
		kind, err := cell.Lookup(c.cell)
		if err != nil {
			t.Fatal(err)
		}
		band, err := kind.Rest(mean(rests), 0.001)
		if err != nil || band.Flat != c.flat {
			t.Errorf("%s: rest reads as %+v, %v; want flat %v", c.file, band, err, c.flat)
		}
	}
}
