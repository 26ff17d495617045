package engine

import (
	"math"
	"strings"
	"testing"

	"ampstead/device"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/physics/bank"
	"ampstead/physics/cell"
	"pgregory.net/rapid"
)

func makeBank(t testing.TB, name string, change func(*bank.Spec)) *bank.Bank {
	t.Helper()
	c, err := cell.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	s := bank.Spec{Cell: c, Series: 14, CapacityAh: 180, ResistanceOhm: 7e-3, MassKg: 52, LossWPerK: 0.8, NeighbourWPerK: 2, SoC: 0.5, TempC: 20}
	if change != nil {
		change(&s)
	}
	b, err := bank.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func start(t testing.TB, s Spec) *Engine {
	t.Helper()
	e, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func runFor(e *Engine, seconds, dt float64) {
	for end := e.Time() + seconds - dt/2; e.Time() < end; {
		e.Step(dt)
	}
}

func mains(volts float64) *device.Charger {
	return &device.Charger{LimitA: 40, AbsorptionV: volts, TailA: 4, TailS: 60, RestartV: volts - 3, SupplyW: math.Inf(1)}
}

// battery.md 8.3: a lead-acid absorption of 57.6 V, compensated by −120 mV/K,
// asks 60.6 V at 0 °C and drives 14 groups to 4.329 V each.
func TestCompensatedChargerOverchargesLithium(t *testing.T) {
	c := mains(57.6)
	c.CompensationVPerK, c.Probe, c.TailA = -0.120, device.AtGroup(0), 0
	b := makeBank(t, "nmc532", func(s *bank.Spec) { s.TempC, s.LossWPerK, s.MassKg = 0, 5, 1e9 })
	e := start(t, Spec{Bank: b, Parts: []Part{{Name: "mains", Role: Source, Device: c, Ohm: 2e-3}}})
	for e.State(0) != device.Absorption {
		e.Step(60)
	}
	e.Step(60)
	s := e.Sense()
	near.Equal(t, "at the charger", e.PartV(0), 60.6, 0.002)
	runFor(e, 3*3600, 60)
	s = e.Sense()
	near.Equal(t, "bank", s.BankV, 60.6, 0.01)
	near.Equal(t, "group", s.HighV, 4.329, 0.001)
	near.Equal(t, "worst group", e.Worst.HighV, 4.329, 0.001)
}

// A whole charge: bulk at full current, absorption at the voltage, ended by the
// tail, started again when loads have drawn the bank down.
func TestWholeCharge(t *testing.T) {
	c := mains(56.8)
	load := &device.Load{}
	log := NewLog(16)
	e := start(t, Spec{Bank: makeBank(t, "nmc532", nil), MainOhm: 1e-3, Log: log, Parts: []Part{
		{Name: "mains", Role: Source, Device: c, Ohm: 3e-3}, {Name: "lamp", Role: Load, Device: load},
	}})
	e.Step(60)
	near.Equal(t, "bulk", e.PartA(0), 40, 1e-3)
	runFor(e, 6*3600, 60)
	if got := e.State(0); got != device.Charged {
		t.Fatalf("after six hours: %v", got)
	}
	near.Equal(t, "highest group", e.Worst.HighV, 56.8/14, 0.002)
	load.W = 1000
	for k := 0; e.State(0) == device.Charged && k < 600; k++ {
		e.Step(60)
	}
	var states []device.State
	for k := range log.Len() {
		if ev := log.At(k); ev.Part == 0 {
			states = append(states, ev.State)
		}
	}
	want := []device.State{device.Bulk, device.Absorption, device.Charged, device.Bulk}
	if len(states) != len(want) {
		t.Fatalf("stages %v, want %v", states, want)
	}
	for k := range want {
		if states[k] != want[k] {
			t.Errorf("stages %v, want %v", states, want)
		}
	}
}

// The same charge by the second, the minute and the quarter of an hour ends in
// the same state: charge within 0.05 %, voltage within 10 mV of 57 V, energy
// given within 0.2 %.
func TestStepLength(t *testing.T) {
	run := func(dt float64) *Engine {
		b := makeBank(t, "nmc532", func(s *bank.Spec) { s.TempC = 10 })
		e := start(t, Spec{Bank: b, MainOhm: 1e-3, SurroundingC: 10, Parts: []Part{
			{Name: "mains", Role: Source, Device: mains(56.8), Ohm: 3e-3}, {Name: "lamp", Role: Load, Device: &device.Load{W: 60}, Ohm: 0.01},
		}})
		runFor(e, 2*3600+1800, dt)
		return e
	}
	second := run(1)
	for _, dt := range []float64{0.1, 10, 60, 900} {
		e := run(dt)
		near.Equal(t, "charge", e.Bank.SoCs()[0], second.Bank.SoCs()[0], 5e-4)
		near.Equal(t, "voltage", e.Bank.Volts(), second.Bank.Volts(), 0.010)
		near.Equal(t, "temperature", e.Bank.Temperatures()[0], second.Bank.Temperatures()[0], 0.06)
		near.Relative(t, "energy", e.Books().SourceWh, second.Books().SourceWh, 2e-3)
	}
}

// At the steep end of iron-phosphate a step of a minute does not carry a group
// past the charger's voltage.
func TestNoOvershootAtTheSteepEnd(t *testing.T) {
	b := makeBank(t, "lfp", func(s *bank.Spec) { s.Series, s.SoC = 16, 0.9 })
	c := mains(56)
	c.LimitA = 90
	e := start(t, Spec{Bank: b, Parts: []Part{{Name: "mains", Role: Source, Device: c, Ohm: 2e-3}}})
	runFor(e, 3*3600, 60)
	near.Equal(t, "highest group", e.Worst.HighV, 3.5, 0.002)
	near.Equal(t, "highest bus", e.Worst.BusV, 56, 0.02)
}

// Whatever the loads, suns, contactors and step lengths: what sources give is
// what loads take, cables lose and the bank gets; and the bank's books close.
func TestBooksClose(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		amount := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
		sun, shore := mains(57), mains(56.5)
		shore.AtBank, shore.Gain = true, amount("gain", -0.01, 0.01)
		inverter := &device.Inverter{Converter: device.Converter{RatedW: 3000, Efficiency: 0.9, IdleW: 20, LowCutV: 44, RestartV: 46}}
		relay := &device.Relay{HighV: amount("trip", 52, 60), HighResetV: 51, LowV: 45, LowResetV: 47}
		e := start(t, Spec{
			Bank:    makeBank(t, "nmc532", func(s *bank.Spec) { s.SoC = amount("charge", 0.02, 0.98) }),
			MainOhm: amount("main", 0, 5e-3),
			Parts: []Part{
				{Name: "relay", Role: Guard, Device: relay, Stops: []string{"main"}},
				{Name: "main", Role: Switch, Device: &device.Contactor{CoilW: 2}},
				{Name: "sun", Role: Source, Device: sun, Ohm: amount("cable", 0, 0.02)},
				{Name: "shore", Role: Source, Device: shore, Ohm: 4e-3},
				{Name: "inverter", Role: Load, Device: inverter, Ohm: 2e-3},
				{Name: "clock", Role: Load, Device: &device.Load{W: 3, A: 0.1}, BankSide: true},
			}})
		for range 30 {
			sun.SupplyW = amount("sun", -200, 2000)
			shore.SupplyA = amount("shore", 0.1, 40)
			inverter.DemandW = amount("demand", 0, 3500)
			e.Step(math.Pow(10, amount("log step", -2, 3.5)))
		}
		k, b := e.Books(), e.Bank.Books()
		moved := k.SourceWh + k.LoadWh + math.Abs(k.BankWh)
		bus, terminals := (k.SourceWh-k.LoadWh-k.CableWh-k.BankWh)/moved, (k.BankWh-b.TerminalWh)/moved
		for name, gap := range map[string]float64{"bus": bus, "terminals": terminals, "bank": b.Gap(), "heat": b.HeatGap()} {
			if !(math.Abs(gap) < 1e-6) {
				rt.Errorf("%s: the books fail to close by %g: %+v %+v", name, gap, k, b)
			}
		}
	})
}

func TestSameRunTwice(t *testing.T) {
	run := func() (Books, bank.Books, Extremes) {
		e, sun, inverter := rig14(t)
		for k := range 2000 {
			sun.SupplyW, inverter.DemandW = day(float64(k) * 60)
			e.Step(60)
		}
		return e.Books(), e.Bank.Books(), e.Worst
	}
	a1, a2, a3 := run()
	b1, b2, b3 := run()
	if a1 != b1 || a2 != b2 || a3 != b3 {
		t.Error("the same run gave another result")
	}
}

func TestSteppingAllocatesNothing(t *testing.T) {
	e, sun, inverter := rig14(t)
	e.Trace = &Trace{Samples: make([]Sample, 0, 50)}
	k := 0.0
	got := testing.AllocsPerRun(3000, func() {
		k++
		sun.SupplyW, inverter.DemandW = day(k * 60)
		e.Step(60)
	})
	near.Equal(t, "allocations", got, 0, 0)
	if len(e.Trace.Samples) != 50 || e.Trace.Missed == 0 {
		t.Errorf("%d samples, %d missed", len(e.Trace.Samples), e.Trace.Missed)
	}
}

func TestSpecErrors(t *testing.T) {
	relay := &device.Relay{}
	cases := []struct {
		change func(*Spec)
		says   string
	}{
		{func(s *Spec) { s.Bank = nil }, "no bank"},
		{func(s *Spec) { s.MainOhm = -1 }, "main cable"},
		{func(s *Spec) { s.Parts = make([]Part, 65) }, "at most 64"},
		{func(s *Spec) { s.Parts = []Part{{Name: "a", Device: relay}, {Name: "a", Device: relay}} }, `two parts are called "a"`},
		{func(s *Spec) { s.Parts = []Part{{Name: "a"}} }, "no device"},
		{func(s *Spec) { s.Parts = []Part{{Name: "a", Device: relay, Ohm: math.NaN()}} }, "cable of NaN"},
		{func(s *Spec) { s.Parts = []Part{{Name: "a", Device: relay, Role: 9}} }, "no known role"},
		{func(s *Spec) { s.Parts = []Part{{Name: "a", Device: relay, Opens: 9}} }, "no known branch"},
		{func(s *Spec) { s.Parts = []Part{{Name: "a", Device: relay, Stops: []string{"b"}}} }, `stops "b"`},
	}
	for _, c := range cases {
		s := Spec{Bank: makeBank(t, "nmc532", nil)}
		c.change(&s)
		if _, err := New(s); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v does not say %q", err, c.says)
		}
	}
}
