package life

import (
	"testing"

	"ampstead/internal/example"
	"ampstead/physics/ageing"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/travel"
)

func open(t testing.TB, name string) *rig.Rig {
	t.Helper()
	return example.File(t, name).Rig
}

func model(t testing.TB, name string) *ageing.Model {
	t.Helper()
	m, err := ageing.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func nmc(t testing.TB) *cell.Cell {
	t.Helper()
	c, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// trip is a year on the road of one steady stress, so many hours short.
func trip(throughput, hours float64) *travel.Result {
	res := &travel.Result{Months: make([]travel.Month, 12)}
	res.Year.UnservedH = hours
	for k := range res.Months {
		res.Months[k] = travel.Month{Month: k + 1, Stress: travel.MonthStress{
			Days: 365.25 / 12, SoC: 0.5, CellV: 3.7, RmsV: 3.72, TempC: 25, BusyC: 25, Throughput: throughput / 12, CRate: 0.1,
			GaveWh: 1000, Cycles: []ageing.Cycle{{Range: 0.3, Mean: 0.5, Count: throughput / 12 / 0.3}},
			Warmth: []travel.Warmth{{TempC: 25, Days: 365.25 / 12}},
		}}
	}
	res.Months[0].UnservedH = hours
	return res
}

// lane is a road of such years, hours short by capacity from the largest.
func lane(first, step, throughput float64, hours ...float64) road {
	var d road
	for k, share := range rungs(first, first, first*pow(1-step, len(hours)-1), step) {
		m := &milestone{share: share, ohms: 1}
		m.arrive(trip(throughput, hours[min(k, len(hours)-1)]))
		d = append(d, m)
	}
	d.settle()
	return d
}

func pow(x float64, n int) float64 {
	y := 1.0
	for range n {
		y *= x
	}
	return y
}
