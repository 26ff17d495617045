package bank

import (
	"math"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/cell"
)

func lookup(t testing.TB, name string) *cell.Cell {
	t.Helper()
	c, err := cell.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func make14(t testing.TB) Spec {
	return Spec{Cell: lookup(t, "nmc532"), Series: 14, CapacityAh: 180, ResistanceOhm: 7e-3, LinksOhm: 4e-4,
		MassKg: 52, LossWPerK: 0.8, NeighbourWPerK: 2, SoC: 0.5, TempC: 18}
}

func build(t testing.TB, s Spec) *Bank {
	t.Helper()
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// isothermal makes a bank so heavy that no step warms it.
func isothermal(s Spec) Spec {
	s.MassKg, s.TempC = 1e15, 25
	return s
}

func TestTableFollowsCurve(t *testing.T) {
	for _, name := range cell.Names() {
		c := lookup(t, name)
		table, err := NewTable(c)
		if err != nil {
			t.Fatal(err)
		}
		for k := range 10001 {
			soc := float64(k) / 10000
			near.Equal(t, name+" rest voltage", table.RestVoltage(soc), c.Curve.Voltage(soc), 0.004)
			tempC := -60 + 160*soc
			near.Relative(t, name+" factor", table.factorAt(tempC), c.ResistanceFactor(tempC), 2e-4)
		}
		near.Relative(t, name+" energy", table.rest[segments-1].integral(1), c.Curve.Energy(0, 1), 1e-5)
	}
}

// Past full and empty the rest voltage runs on along its last slope.
func TestBeyondTheEnds(t *testing.T) {
	table, err := NewTable(lookup(t, "nmc532"))
	if err != nil {
		t.Fatal(err)
	}
	top := table.rest[segments-1].slope
	near.Equal(t, "5 % past full", table.RestVoltage(1.05), table.RestVoltage(1)+0.05*top, 1e-9)
	bottom := table.rest[0].slope
	near.Equal(t, "5 % past empty", table.RestVoltage(-0.05), table.RestVoltage(0)-0.05*bottom, 1e-9)
	if v := table.RestVoltage(math.NaN()); !math.IsNaN(v) {
		t.Errorf("rest voltage of no number is %g", v)
	}
}

// A 10 s pulse from rest shows the resistance the bank was made with.
func TestPulseShowsResistance(t *testing.T) {
	b := build(t, isothermal(make14(t)))
	before := b.Volts()
	b.Step(-90, 10, 25, 0)
	sag := before - b.Volts() - (before - b.RestVolts())
	near.Relative(t, "10 s resistance", sag/90, 7e-3, 1e-9)
}

func TestColdRaisesResistance(t *testing.T) {
	s := isothermal(make14(t))
	s.TempC, s.LinksOhm = 0, 0
	b := build(t, s)
	before := b.RestVolts()
	b.Step(-90, 10, 0, 0)
	sag := b.RestVolts() - b.Volts()
	near.Relative(t, "at 0 °C", sag/90, 7e-3*s.Cell.ResistanceFactor(0), 2e-4)
	if before <= b.RestVolts() {
		t.Error("discharge did not lower the rest voltage")
	}
}

func TestCharge(t *testing.T) {
	s := make14(t)
	s.LeakA = make([]float64, 14)
	s.LeakA[3] = 0.5
	b := build(t, s)
	for range 60 {
		b.Step(36, 60, 18, 0)
	}
	near.Equal(t, "36 A for an hour into 180 Ah", b.SoCs()[0], 0.7, 1e-12)
	near.Equal(t, "the same with a leak of 0.5 A", b.SoCs()[3], 0.5+35.5/180, 1e-12)
	near.Equal(t, "charge in", b.Books().InAh, 36, 1e-9)
	near.Equal(t, "charge out", b.Books().OutAh, 0, 0)
}

func TestTheveninIsWhatTryFinds(t *testing.T) {
	b := build(t, make14(t))
	b.Step(-30, 60, 18, 0)
	volts, ohm := b.Thevenin(1)
	for _, amps := range []float64{-40, -1, 0, 25} {
		got, slope := b.Try(amps, 1)
		near.Equal(t, "terminal voltage", got, volts+ohm*amps, 1e-4)
		near.Relative(t, "its slope", slope, ohm, 0.01)
	}
	if got, _ := b.Try(0, 1); b.Volts() == got {
		t.Error("trying a step took it")
	}
}

// battery.md 4.3: the published warm-up equation, 60 W into 25 kg.
func TestWarmUp(t *testing.T) {
	b := build(t, Spec{Cell: lookup(t, "nmc532"), Series: 7, CapacityAh: 90, MassKg: 25, SpecificHeat: 1000, LossWPerK: 1.5, TempC: -5})
	seconds := 0.0
	for _, hot := b.Warmth(); hot < 5; _, hot = b.Warmth() {
		b.Step(0, 1, -5, 60)
		seconds++
	}
	near.Relative(t, "time to +5 °C", seconds, 4794.7, 1e-3)
	for range 200 {
		b.Step(0, 3600, -5, 60)
	}
	_, hot := b.Warmth()
	near.Equal(t, "highest reachable", hot, 35, 1e-6)
}

// One warm group warms its neighbours first and the far end last.
func TestConduction(t *testing.T) {
	s := make14(t)
	s.HeaterShare = make([]float64, 14)
	s.HeaterShare[0], s.LossWPerK = 1, 0
	b := build(t, s)
	for range 30 {
		b.Step(0, 60, 18, 50)
	}
	temps := b.Temperatures()
	for i := 1; i < len(temps); i++ {
		if temps[i] >= temps[i-1] {
			t.Errorf("group %d at %.3f °C is no cooler than the one before at %.3f °C", i+1, temps[i], temps[i-1])
		}
	}
	near.Equal(t, "heat kept", b.Books().WarmthWh, 25, 1e-9)
}

func TestHourStepsStayStable(t *testing.T) {
	s := make14(t)
	s.NeighbourWPerK = 200
	s.HeaterShare = make([]float64, 14)
	s.HeaterShare[7] = 1
	b := build(t, s)
	for range 400 {
		b.Step(0, 3600, 0, 60)
		cold, hot := b.Warmth()
		if cold < 0 || hot > 100 {
			t.Fatalf("temperatures swing to %g..%g °C", cold, hot)
		}
	}
	near.Equal(t, "settled bank", b.Temperatures()[0], 60/0.8, 0.5)
}

func TestClone(t *testing.T) {
	a := build(t, make14(t))
	a.Step(20, 60, 18, 0)
	b := a.Clone()
	a.Step(20, 60, 18, 0)
	if a.SoCs()[0] == b.SoCs()[0] || a.Volts() == b.Volts() {
		t.Error("stepping a bank moved its clone")
	}
	b.Step(20, 60, 18, 0)
	if a.Volts() != b.Volts() || a.Books() != b.Books() {
		t.Error("the clone took another path")
	}
}

func TestSetters(t *testing.T) {
	b := build(t, isothermal(make14(t)))
	b.SetResistance(2, 1e6, 0)
	volts, ohm := b.Thevenin(1)
	if ohm < 1e6 {
		t.Errorf("an opened link leaves %g Ω", ohm)
	}
	near.Relative(t, "voltage behind it", volts, b.RestVolts(), 1e-12)
	b.SetResistance(2, 3e-4, 2e-4)
	b.SetLeak(2, 1.8)
	b.SetCapacity(2, 90)
	b.Step(0, 3600, 25, 0)
	near.Equal(t, "a leak of 1.8 A for an hour from 90 Ah", b.SoCs()[2], 0.48, 1e-12)
	near.Equal(t, "leak", b.Books().LeakWh, 1.8*b.Voltages()[2], 0.02)
	b.Step(50, 100, 25, 0)
	b.SetResistance(2, 1e-4, 1e-3)
	b.SetCapacity(2, 30)
	b.Step(-50, 100, 25, 0)
	near.Equal(t, "books after the changes", b.Books().Gap(), 0, 1e-9)
}

func TestSteppingAllocatesNothing(t *testing.T) {
	b := build(t, make14(t))
	dt := 1.0
	got := testing.AllocsPerRun(100, func() {
		dt += 1
		b.Step(10, dt, 15, 30)
	})
	near.Equal(t, "allocations", got, 0, 0)
}

func TestSpecErrors(t *testing.T) {
	cases := []struct {
		change func(*Spec)
		says   string
	}{
		{func(s *Spec) { s.Cell = nil }, "no cell"},
		{func(s *Spec) { s.Cell = &cell.Cell{} }, "time constant"},
		{func(s *Spec) { s.Series = 0 }, "0 groups"},
		{func(s *Spec) { s.CapacityAh = 0 }, "capacity is 0"},
		{func(s *Spec) { s.CapacityAh = math.NaN() }, "capacity is NaN"},
		{func(s *Spec) { s.GroupCapacityAh = []float64{1} }, "1 capacities for 14 groups"},
		{func(s *Spec) { s.ResistanceOhm = 4e-4 }, "links"},
		{func(s *Spec) { s.MassKg = 0 }, "heat capacity is 0"},
		{func(s *Spec) { s.LossWPerK = -1 }, "heat loss"},
		{func(s *Spec) { s.NeighbourWPerK = 1e9 }, "conduction"},
		{func(s *Spec) { s.HeaterShare = make([]float64, 14) }, "heater shares add to 0"},
		{func(s *Spec) { s.TempC = -300 }, "temperature is -300"},
		{func(s *Spec) { s.SoC = math.Inf(1) }, "state of charge"},
	}
	for _, c := range cases {
		s := make14(t)
		c.change(&s)
		if _, err := New(s); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v does not say %q", err, c.says)
		}
	}
}

// The resistances of a group are those it was made with: at 10 s they are the
// whole of what was measured.
func TestResistanceOfAGroup(t *testing.T) {
	c := lookup(t, "nmc532")
	b := build(t, Spec{Cell: c, Series: 7, CapacityAh: 90, ResistanceOhm: 7e-3, MassKg: 25, SoC: 0.5, TempC: 5})
	fast, slow := b.Resistance(3)
	wantFast, wantSlow := c.Split(1e-3)
	near.Equal(t, "fast", fast, wantFast, 1e-12)
	near.Equal(t, "slow", slow, wantSlow, 1e-12)
	b.SetResistance(3, 2e-3, 1e-3)
	if fast, slow = b.Resistance(3); fast != 2e-3 || slow != 1e-3 {
		t.Errorf("set to 2 and 1 mΩ, reads %g and %g Ω", fast, slow)
	}
}
