package bank

import (
	"math"
	"testing"

	"ampstead/physics/cell"
)

// A full lead-acid battery held at its absorption voltage takes in hardly more:
// what flows then is gas.
func TestLeadAcidDoesNotStoreBeyondFull(t *testing.T) {
	c, err := cell.Lookup("lead-acid-agm")
	if err != nil {
		t.Fatal(err)
	}
	b, err := New(Spec{Cell: c, Series: 6, CapacityAh: 100, MassKg: 30, SoC: 0.9, TempC: 25})
	if err != nil {
		t.Fatal(err)
	}
	want := 6 * c.Acid.AbsorptionV.Value
	for range 12 * 60 {
		volts, ohm := b.Thevenin(60)
		b.Step(math.Min(20, (want-volts)/ohm), 60, 25, 0)
	}
	if soc := b.SoCs()[0]; soc < 1 || soc > 1.04 {
		t.Errorf("charge %.3f after 12 h at %.1f V", soc, want)
	}
	if gap := b.Books().Gap(); gap > 1e-9 {
		t.Errorf("the books are off by %g", gap)
	}
}

// The rise begins where the curve ends and changes nothing below.
func TestLeadAcidCurveIsWhole(t *testing.T) {
	c, err := cell.Lookup("lead-acid-flooded")
	if err != nil {
		t.Fatal(err)
	}
	table, err := NewTable(c)
	if err != nil {
		t.Fatal(err)
	}
	for soc := 0.0; soc < 1-1.0/segments; soc += 1e-3 {
		if off := math.Abs(table.RestVoltage(soc) - c.Curve.Voltage(soc)); off > 1e-3 {
			t.Errorf("%g V off at %g", off, soc)
		}
	}
	end := 1 - 1.0/segments
	below, above := &table.rest[segments-2], &table.rest[segments-1]
	if math.Abs(below.value(end)-above.value(end)) > 1e-12 || math.Abs(below.integral(end)-above.integral(end)) > 1e-12 {
		t.Error("a step where the rise begins")
	}
}
