package bank

import (
	"testing"

	"ampstead/physics/cell"
)

func benchBank(b *testing.B) *Bank {
	c, err := cell.Lookup("nmc532")
	if err != nil {
		b.Fatal(err)
	}
	k, err := New(Spec{Cell: c, Series: 14, CapacityAh: 180, ResistanceOhm: 7e-3, LinksOhm: 4e-4, MassKg: 52, LossWPerK: 0.8, NeighbourWPerK: 2, SoC: 0.5, TempC: 18})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

// BenchmarkBankStep14 is one step of a bank of 14 groups, heat and books included.
func BenchmarkBankStep14(b *testing.B) {
	k := benchBank(b)
	b.ReportAllocs()
	amps := 20.0
	for b.Loop() {
		amps = -amps
		k.Step(amps, 60, 15, 0)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/14, "ns/group")
}
