package device

import (
	"testing"

	"ampstead/internal/near"
)

// run shows a device a bank voltage each second and returns whether it stopped
// what it drives at each.
func run(d Device, volts ...float64) []bool {
	var stops []bool
	for k, v := range volts {
		var p Port
		d.Step(1, &Sense{Time: float64(k), BankV: v, BusV: v, OwnV: v}, &p)
		stops = append(stops, p.Stop)
	}
	return stops
}

func volts(pairs ...float64) (list []float64) {
	for k := 0; k < len(pairs); k += 2 {
		for range int(pairs[k]) {
			list = append(list, pairs[k+1])
		}
	}
	return list
}

func firstStop(stops []bool) int {
	for k, s := range stops {
		if s {
			return k
		}
	}
	return -1
}

func TestRelay(t *testing.T) {
	base := Relay{HighV: 58.4, HighResetV: 57, LowV: 43, LowResetV: 47, HighDelayS: 2, LowDelayS: 20}
	change := func(f func(*Relay)) Relay { r := base; f(&r); return r }
	cases := []struct {
		name  string
		relay Relay
		volts []float64
		first int // second of the first stop, -1 for none
		last  bool
	}{
		{"quiet in between", base, volts(60, 50), -1, false},
		{"a dip shorter than the delay", base, volts(5, 50, 19, 42, 30, 44), -1, false},
		{"a dip as long as the delay", base, volts(5, 50, 21, 42), 25, true},
		{"two short dips do not add up", base, volts(15, 42, 1, 44, 15, 42, 1, 44), -1, false},
		{"high after its delay", base, volts(5, 50, 10, 58.5), 7, true},
		{"at the threshold is not above it", base, volts(30, 58.4), -1, false},
		{"holds until the reset", base, volts(3, 58.5, 30, 57.1), 2, true},
		{"lets go at the reset", base, volts(3, 58.5, 30, 57), 2, false},
		{"low holds until its reset", base, volts(25, 42, 30, 46.9), 20, true},
		{"low lets go", base, volts(25, 42, 30, 47), 20, false},
		{"latched", change(func(r *Relay) { r.Latching = true }), volts(3, 58.5, 30, 50), 2, true},
		{"reads low by 1 %", change(func(r *Relay) { r.Gain = 0.01 }), volts(30, 58.9), -1, false},
		{"reads high by 1 %", change(func(r *Relay) { r.Gain = -0.01 }), volts(30, 57.9), 2, true},
		{"too coarse to see it", change(func(r *Relay) { r.ResolutionV = 1 }), volts(30, 58.49), -1, false},
		{"no high trip", change(func(r *Relay) { r.HighV = 0 }), volts(30, 99), -1, false},
	}
	for _, c := range cases {
		stops := run(&c.relay, c.volts...)
		if got := firstStop(stops); got != c.first {
			t.Errorf("%s: first stop at %d s, want %d", c.name, got, c.first)
		}
		if got := stops[len(stops)-1]; got != c.last {
			t.Errorf("%s: stopped at the end %v, want %v", c.name, got, c.last)
		}
	}
}

// The delay is kept whatever the length of the step.
func TestRelayDelayAtAnyStep(t *testing.T) {
	for _, dt := range []float64{0.01, 0.1, 0.7, 1, 5} {
		r := &Relay{LowV: 43, LowDelayS: 20}
		var p Port
		at := 0.0
		for ; !p.Stop; at += dt {
			r.Step(dt, &Sense{Time: at, BankV: 42}, &p)
		}
		if acted := at - dt; acted < 20-1e-6 || acted > 20+dt {
			t.Errorf("with steps of %g s it acted after %g s", dt, acted)
		}
	}
}

func TestRelaySensesWhereItIs(t *testing.T) {
	var p Port
	(&Relay{HighV: 58, AtBus: true}).Step(1, &Sense{BankV: 57.9, BusV: 58.2}, &p)
	if !p.Stop {
		t.Error("a relay at the bus did not see the bus")
	}
	r := &Relay{HighV: 58, Latching: true}
	r.Step(1, &Sense{BankV: 59}, &Port{})
	r.Reset()
	p = Port{}
	r.Step(1, &Sense{Time: 1, BankV: 50}, &p)
	if p.Stop {
		t.Error("a reset relay still stops")
	}
}

func meterSense(at float64, groups ...float64) *Sense {
	s := &Sense{Time: at, HotC: 20, ColdC: 20}
	s.SetGroupV(groups)
	return s
}

func TestMeter(t *testing.T) {
	base := Meter{HighV: 4.15, LowV: 3.2, SpreadV: 0.05, HotC: 50, Probe: AtHottest}
	change := func(f func(*Meter)) Meter { m := base; f(&m); return m }
	cases := []struct {
		name   string
		meter  Meter
		groups []float64
		want   Alarm
	}{
		{"quiet", base, []float64{3.7, 3.71, 3.72}, 0},
		{"high and spread", base, []float64{4.08, 4.16, 4.1}, AlarmHigh | AlarmSpread},
		{"low", base, []float64{3.19, 3.2, 3.21}, AlarmLow},
		{"reads high", change(func(m *Meter) { m.ErrorV = 0.01 }), []float64{4.145, 4.145}, AlarmHigh},
		{"one group reads low", change(func(m *Meter) { m.ErrorsV = []float64{0, -0.06} }), []float64{3.7, 3.7}, AlarmSpread},
		{"errors hide a high group", change(func(m *Meter) { m.ErrorsV = []float64{0, -0.02} }), []float64{4.14, 4.16}, 0},
		{"coarse", change(func(m *Meter) { m.ResolutionV = 0.1 }), []float64{4.13, 4.14}, 0},
	}
	for _, c := range cases {
		var p Port
		c.meter.Step(1, meterSense(0, c.groups...), &p)
		if p.Alarm != c.want {
			t.Errorf("%s: %v, want %v", c.name, p.Alarm, c.want)
		}
		if (p.State == Alarming) != (c.want != 0) || p.Stop {
			t.Errorf("%s: state %v, stop %v", c.name, p.State, p.Stop)
		}
	}
}

func TestMeterOutput(t *testing.T) {
	m := &Meter{HighV: 4.15, BackV: 0.05, Acts: AlarmHigh, DelayS: 2, HotC: 50, Probe: AtGroup(0)}
	for k, want := range []bool{false, false, true, true} {
		var p Port
		m.Step(1, meterSense(float64(k), 4.16), &p)
		if p.Stop != want {
			t.Errorf("after %d s: stops %v", k, p.Stop)
		}
	}
	var p Port
	m.Step(1, meterSense(4, 4.12), &p)
	if !p.Stop {
		t.Error("it let go within its hysteresis")
	}
	s := meterSense(5, 4.05)
	s.SetGroupC([]float64{51})
	p = Port{}
	m.Step(1, s, &p)
	if p.Stop || p.Alarm != AlarmHot {
		t.Errorf("stops %v with alarm %v", p.Stop, p.Alarm)
	}
}

func TestCutout(t *testing.T) {
	c := &Cutout{Below: true, BelowC: 4, Above: true, AboveC: 45, BackK: 2, Probe: AtGroup(1), ErrorK: 0.5}
	for _, step := range []struct {
		tempC float64
		want  State
	}{{20, Quiet}, {3.6, Quiet}, {3.4, TooCold}, {5.4, TooCold}, {5.6, Quiet}, {44.6, TooHot}, {42.6, TooHot}, {42.4, Quiet}} {
		var p Port
		c.Step(1, &Sense{GroupC: []float64{99, step.tempC}}, &p)
		if p.State != step.want || p.Stop != (step.want != Quiet) {
			t.Errorf("at %g °C: %v, stop %v, want %v", step.tempC, p.State, p.Stop, step.want)
		}
	}
	blind := &Cutout{Below: true, BelowC: 4}
	var p Port
	blind.Step(1, &Sense{}, &p)
	if p.Stop {
		t.Error("a cut-out without thermometer acted")
	}
}

func TestContactor(t *testing.T) {
	c := &Contactor{OpenS: 2, CloseS: 1, CoilW: 1.7, HoldV: 20}
	steps := []struct {
		stop  bool
		volts float64
		open  bool
	}{{false, 50, false}, {true, 50, false}, {true, 50, false}, {true, 50, true}, {false, 50, true}, {false, 50, false}, {false, 10, false}, {false, 10, false}, {false, 10, true}}
	for k, step := range steps {
		var p Port
		c.Step(1, &Sense{Time: float64(k), Stop: step.stop, OwnV: step.volts}, &p)
		if p.Stop != step.open || c.Open() != step.open {
			t.Errorf("at %d s: open %v, want %v", k, p.Stop, step.open)
		}
		near.Equal(t, "coil", p.LoadW, map[bool]float64{true: 0, false: 1.7}[step.open], 0)
	}
}

func TestProbe(t *testing.T) {
	s := &Sense{SurroundingC: -7}
	s.SetGroupC([]float64{3, 1, 2})
	for _, c := range []struct {
		probe Probe
		want  float64
		ok    bool
	}{{NoProbe, 0, false}, {AtOutside, -7, true}, {AtColdest, 1, true}, {AtHottest, 3, true}, {AtGroup(2), 2, true}, {AtGroup(3), 0, false}, {-9, 0, false}} {
		got, ok := c.probe.Read(s)
		if got != c.want || ok != c.ok {
			t.Errorf("probe %d reads %g, %v", c.probe, got, ok)
		}
	}
}

func TestNames(t *testing.T) {
	for s := Idle; s <= TooHot; s++ {
		if s.String() == "" || s.String() == "unknown" {
			t.Errorf("state %d has no name", s)
		}
	}
	if State(200).String() != "unknown" || (AlarmHigh|AlarmHot).String() != "group high, hot" || Alarm(0).String() != "none" {
		t.Error("names of states and alarms")
	}
}
