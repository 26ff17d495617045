package engine

import (
	"math"
	"testing"

	"ampstead/device"
	"ampstead/internal/near"
	"ampstead/physics/bank"
)

// guarded is a bank with a relay, a contactor, one source and loads on both
// sides of the contactor.
func guarded(t *testing.T, c *device.Charger, load, bypass float64, change func(*bank.Spec)) *Engine {
	return start(t, Spec{Bank: makeBank(t, "nmc532", change), MainOhm: 1e-3, Log: NewLog(64), Parts: []Part{
		{Name: "lamp", Role: Load, Device: &device.Load{W: load}},
		{Name: "clock", Role: Load, Device: &device.Load{W: bypass}, BankSide: true},
		{Name: "mains", Role: Source, Device: c, Ohm: 2e-3},
		{Name: "main", Role: Switch, Device: &device.Contactor{OpenS: 0.1}},
		{Name: "relay", Role: Guard, Device: &device.Relay{HighV: 58.4, HighResetV: 57, LowV: 46, LowResetV: 49, HighDelayS: 2, LowDelayS: 20}, Stops: []string{"main"}},
	}})
}

func off() *device.Charger { return &device.Charger{} }

// A charger that runs away is cut off by the relay; the bus then stands at what
// the charger gives, with the loads on it.
func TestRunawayCharger(t *testing.T) {
	c := mains(62)
	e := guarded(t, c, 100, 0, func(s *bank.Spec) { s.SoC = 0.97 })
	for k := 0; e.State(e.Index("main")) != device.Open && k < 36000; k++ {
		e.Step(1)
	}
	if e.Worst.HighV > 58.5/14+0.01 {
		t.Errorf("a group came to %.3f V before the relay acted", e.Worst.HighV)
	}
	e.Step(1)
	s := e.Sense()
	near.Equal(t, "bank current", s.BankA, 0, 1e-9)
	near.Equal(t, "bus", s.BusV, 62, 0.01)
	near.Equal(t, "charger gives what the lamp takes", e.PartA(e.Index("mains")), 100/s.BusV, 1e-6)
}

// With no source left the bus is dead, the bypass load goes on draining.
func TestDeadBus(t *testing.T) {
	e := guarded(t, off(), 2000, 50, func(s *bank.Spec) { s.SoC = 0.05 })
	for k := 0; e.State(e.Index("main")) != device.Open && k < 36000; k++ {
		e.Step(1)
	}
	e.Step(1)
	s := e.Sense()
	near.Equal(t, "bus", s.BusV, 0, 0)
	near.Equal(t, "lamp", e.PartA(e.Index("lamp")), 0, 0)
	near.Equal(t, "clock", -s.BankA, 50/s.BankV, 1e-6)
	before := e.Bank.SoCs()[0]
	runFor(e, 3600, 60)
	near.Equal(t, "an hour of 50 W", (before-e.Bank.SoCs()[0])*180, 50/e.Bank.Volts(), 0.02)
}

// Alone on the bus, a source that cannot carry the loads lets it collapse.
func TestIsland(t *testing.T) {
	n := net{floor: 13, volts: 50, feeds: make([]feed, 0, 2)}
	own := feed{set: 57, most: 40, ohm: 2e-3, cable: 500, give: 500}
	wires := feed{set: 57, most: 10, ohm: 2e-3, cable: 500, give: 1e4, atBank: true, ceiling: 63}
	strong := own
	strong.watts = 1500
	cases := []struct {
		name  string
		feeds []feed
		load  draw
		want  float64
	}{
		{"no source", nil, draw{watts: 5}, 0},
		{"no load", []feed{own}, draw{}, 57},
		{"a load within its current", []feed{own}, draw{amps: 20}, 57 - 20*2e-3},
		{"a load beyond it", []feed{own}, draw{amps: 41}, 0},
		{"a power beyond it", []feed{own}, draw{watts: 2400}, 0},
		{"a power beyond the sun", []feed{strong}, draw{watts: 1600}, 0},
		{"a power within the sun", []feed{strong}, draw{watts: 1400}, 57 - 2e-3*1400/56.95},
		{"sense wires behind the open contactor", []feed{wires}, draw{}, 63},
		{"two sources share", []feed{own, wires}, draw{amps: 45}, 57 - 35*2e-3},
	}
	for _, c := range cases {
		n.feeds = append(n.feeds[:0], c.feeds...)
		n.bus = c.load
		n.island()
		near.Equal(t, c.name, n.busV, c.want, 1e-3)
		sum := 0.0
		for _, f := range n.feeds {
			sum += f.amps
		}
		drawn, _ := n.bus.at(n.busV, n.floor)
		near.Equal(t, c.name+": current given and taken", sum, drawn, 1e-6)
	}
}

// blind is a meter whose reading is stuck at what it first saw.
type blind struct {
	inner device.Device
	seen  device.Sense
	group []float64
}

func (b *blind) Step(dt float64, s *device.Sense, p *device.Port) {
	if b.group == nil {
		b.group = append([]float64(nil), s.GroupV...)
	}
	b.seen = *s
	b.seen.SetGroupV(b.group)
	b.inner.Step(dt, &b.seen, p)
}

// welded is a contactor that cannot open.
type welded struct{ device.Device }

func (w welded) Step(dt float64, s *device.Sense, p *device.Port) {
	w.Device.Step(dt, s, p)
	p.Stop = false
}

// Faults come in as wrappers, around what a device sees or what it does.
func TestFaultsWrap(t *testing.T) {
	run := func(faults map[string]func(device.Device) device.Device) *Engine {
		meter := &device.Meter{HighV: 4.12, BackV: 0.15, Acts: device.AlarmHigh}
		e := start(t, Spec{Bank: makeBank(t, "nmc532", func(s *bank.Spec) { s.SoC = 0.9 }), Parts: []Part{
			{Name: "meter", Role: Guard, Device: meter, Stops: []string{"main"}},
			{Name: "main", Role: Switch, Device: &device.Contactor{}},
			{Name: "mains", Role: Source, Device: mains(60)},
		}})
		for name, wrap := range faults {
			if err := e.Wrap(name, wrap); err != nil {
				t.Fatal(err)
			}
		}
		runFor(e, 2*3600, 10)
		return e
	}
	stuck := func(d device.Device) device.Device { return &blind{inner: d} }
	weld := func(d device.Device) device.Device { return welded{d} }
	near.Equal(t, "sound", run(nil).Worst.HighV, 4.12, 0.005)
	near.Equal(t, "stuck meter", run(map[string]func(device.Device) device.Device{"meter": stuck}).Worst.HighV, 60.0/14, 0.005)
	near.Equal(t, "welded contactor", run(map[string]func(device.Device) device.Device{"main": weld}).Worst.HighV, 60.0/14, 0.005)
	if err := run(nil).Wrap("none", weld); err == nil {
		t.Error("wrapped a part that is not there")
	}
}

func TestOpenedLink(t *testing.T) {
	e := guarded(t, mains(56.8), 200, 0, nil)
	e.Step(1)
	e.Bank.SetResistance(4, 1e6, 0)
	runFor(e, 10, 1)
	s := e.Sense()
	near.Equal(t, "bank current", s.BankA, 0, 1e-3)
	near.Equal(t, "the charger carries the lamp", e.PartA(e.Index("mains")), 200/s.BusV, 1e-3)
	near.Equal(t, "bus", s.BusV, 56.8, 0.02)
}

// A leaking group falls behind the others until the meter sees the spread.
func TestLeakingGroup(t *testing.T) {
	e := start(t, Spec{Bank: makeBank(t, "nmc532", nil), Log: NewLog(4), Parts: []Part{
		{Name: "meter", Role: Guard, Device: &device.Meter{SpreadV: 0.03}},
	}})
	e.Bank.SetLeak(6, 0.5)
	for k := 0; e.Log.Len() < 2 && k < 24*30; k++ {
		e.Step(3600)
	}
	ev := e.Log.At(1)
	if ev.Alarm != device.AlarmSpread || ev.State != device.Alarming || ev.HighV-ev.LowV < 0.03 {
		t.Fatalf("event %+v", ev)
	}
	gone := (0.5 - e.Bank.SoCs()[6]) * 180
	near.Equal(t, "charge leaked", gone, 0.5*e.Time()/3600, 1e-6)
}

// A charge contactor leaves the source at its own voltage and the bank alone; a
// load contactor leaves the loads without.
func TestBranches(t *testing.T) {
	for branch, want := range map[Branch]struct{ mains, lamp float64 }{ChargeBranch: {0, 1}, LoadBranch: {1, 0}} {
		e := start(t, Spec{Bank: makeBank(t, "nmc532", nil), Parts: []Part{
			{Name: "hand", Role: Guard, Device: always{}, Stops: []string{"switch"}},
			{Name: "switch", Role: Switch, Device: &device.Contactor{}, Opens: branch},
			{Name: "mains", Role: Source, Device: mains(56.8)},
			{Name: "lamp", Role: Load, Device: &device.Load{W: 100}},
		}})
		runFor(e, 5, 1)
		given, taken := e.PartA(e.Index("mains")), e.PartA(e.Index("lamp"))
		if (given > 0) != (want.mains > 0) || (taken > 0) != (want.lamp > 0) {
			t.Errorf("branch %d open: source gives %g A, lamp takes %g A", branch, given, taken)
		}
		if branch == ChargeBranch {
			near.Equal(t, "source by itself", e.PartV(e.Index("mains")), 56.8, 1e-9)
		} else {
			near.Equal(t, "lamp's terminals", e.PartV(e.Index("lamp")), 0, 0)
		}
	}
}

type always struct{}

func (always) Step(_ float64, _ *device.Sense, p *device.Port) { p.Stop = true }

// The heater warms the bank from its own energy until its thermostat is content.
func TestHeaterWarmsTheBank(t *testing.T) {
	e := start(t, Spec{Bank: makeBank(t, "nmc532", func(s *bank.Spec) { s.TempC = 2 }), SurroundingC: -5, Parts: []Part{
		{Name: "pad", Role: Load, Device: &device.Heater{PowerW: 90, OnC: 7, OffC: 11, Probe: device.AtGroup(0)}},
	}})
	runFor(e, 24*3600, 60)
	s := e.Sense()
	if s.ColdC < 6.5 || s.HotC > 11.5 {
		t.Errorf("bank at %.1f..%.1f °C", s.ColdC, s.HotC)
	}
	near.Relative(t, "heat put in", e.Bank.Books().HeaterWh, e.PartWh(0), 1e-3)
}

func TestLogKeepsTheLatest(t *testing.T) {
	l := NewLog(3)
	for k := range 5 {
		l.add(Event{Part: k})
	}
	if l.Len() != 3 || l.Lost() != 2 || l.At(0).Part != 2 || l.At(2).Part != 4 {
		t.Errorf("%d kept, %d lost, oldest %d", l.Len(), l.Lost(), l.At(0).Part)
	}
	l.Clear()
	if l.Len() != 0 || l.Lost() != 0 {
		t.Error("a cleared log is not empty")
	}
}

// Power beyond what the bank can give at all: the bus sags, nothing runs away.
func TestOverwhelmingLoad(t *testing.T) {
	e := guarded(t, off(), 5e5, 0, nil)
	runFor(e, 5, 0.1)
	s := e.Sense()
	if math.IsNaN(s.BusV) || s.BusV < 0 || s.BusV > 50 || s.BankA > 0 {
		t.Errorf("bus at %g V, bank at %g A", s.BusV, s.BankA)
	}
}

// A main fuse that opens leaves the bus to its sources, and what is fed from the
// bank's own terminals without anything.
func TestOpenMain(t *testing.T) {
	e := guarded(t, mains(56.8), 200, 50, nil)
	runFor(e, 10, 1)
	if e.PartA(e.Index("clock")) == 0 {
		t.Fatal("the clock is off before")
	}
	e.OpenMain()
	runFor(e, 10, 1)
	s := e.Sense()
	near.Equal(t, "bank current", s.BankA, 0, 0)
	near.Equal(t, "clock", e.PartA(e.Index("clock")), 0, 0)
	near.Equal(t, "lamp", e.PartA(e.Index("lamp")), 200/s.BusV, 1e-6)
	k := e.Books()
	near.Equal(t, "books", k.SourceWh-k.LoadWh-k.CableWh-k.BankWh, 0, 1e-6)
}

// A part moved before the contactor goes on drawing when it opens.
func TestBypass(t *testing.T) {
	e := guarded(t, off(), 2000, 0, func(s *bank.Spec) { s.SoC = 0.05 })
	if err := e.Bypass("lamp"); err != nil {
		t.Fatal(err)
	}
	for k := 0; e.State(e.Index("main")) != device.Open && k < 36000; k++ {
		e.Step(1)
	}
	e.Step(1)
	near.Equal(t, "lamp", e.PartA(e.Index("lamp"))*e.Sense().BankV, 2000, 1)
	if err := e.Bypass("none"); err == nil {
		t.Error("moved a part that is not there")
	}
}
