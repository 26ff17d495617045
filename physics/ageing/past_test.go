package ageing

import (
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
)

func TestAUsedCellStartsWhereItWasMeasured(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyModel(t)
		p := Past{Capacity: rapid.Float64Range(0.75, 0.999).Draw(t, "capacity")}
		if rapid.Bool().Draw(t, "stated") {
			p.Use = anyStress(t)
		}
		l := m.From(p)
		near.Equal(drawn{t: t}, m.Name, l.Capacity(), p.Capacity, 1e-9)
		if l.Basis() != "measured" {
			t.Fatalf("basis %q", l.Basis())
		}
		year := VehicleUse(1, 0)
		used, fresh := l, m.Start()
		used.Add(year)
		fresh.Add(year)
		if lost := l.Capacity() - used.Capacity(); lost > 1-fresh.Capacity()+1e-9 {
			t.Fatalf("a used cell lost %g in a year, a new one %g", lost, 1-fresh.Capacity())
		}
	})
}

// drawn lets near report through rapid.
type drawn struct {
	testing.TB
	t *rapid.T
}

func (d drawn) Helper()                   {}
func (d drawn) Errorf(f string, a ...any) { d.t.Fatalf(f, a...) }

func TestStatedUseAgesByTheModel(t *testing.T) {
	m := model(t, "schmalstieg")
	l := m.From(Past{Use: VehicleUse(8, 900)})
	near.Equal(t, "capacity", l.Capacity(), left(m, VehicleUse(8, 900)), 1e-12)
	if l.Basis() != "stated use" {
		t.Errorf("basis %q", l.Basis())
	}
	near.Equal(t, "full cycles left out", VehicleUse(8, 0).Throughput, 480, 0)
	if l := m.From(Past{}); l.Capacity() != 1 || l.Basis() != "new" {
		t.Errorf("nothing known: %g, %s", l.Capacity(), l.Basis())
	}
}

func TestMeasuredResistanceIsTakenOver(t *testing.T) {
	m := model(t, "schmalstieg")
	for _, p := range []Past{{Resistance: 1.4}, {Capacity: 0.85, Resistance: 1.4}, {Capacity: 1, Resistance: 1.4, Use: VehicleUse(3, 300)}} {
		l := m.From(p)
		got, ok := l.Resistance()
		if !ok {
			t.Fatal("no resistance")
		}
		near.Equal(t, "resistance", got, 1.4, 1e-9)
		if p.Capacity > 0 {
			near.Equal(t, "capacity", l.Capacity(), p.Capacity, 1e-9)
		}
	}
	alone := m.From(Past{Resistance: 1.4})
	near.Equal(t, "capacity when resistance alone is known", alone.Capacity(), 1, 0)
	l := model(t, "naumann").From(Past{Capacity: 0.9, Resistance: 1.4})
	if _, ok := l.Resistance(); ok {
		t.Error("a model without resistance reports some")
	}
}

func TestACellBetterThanNewStartsNew(t *testing.T) {
	l := model(t, "naumann").From(Past{Capacity: 1.03, Use: VehicleUse(2, 0)})
	near.Equal(t, "capacity", l.Capacity(), 1, 0)
}
