package engine

import (
	"fmt"

	"ampstead/device"
	"ampstead/physics/bank"
)

// Engine is a bank and its devices on one bus. Build it with New.
type Engine struct {
	Bank         *bank.Bank
	SurroundingC float64 // °C around the bank, may change between steps
	Log          *Log    // where events go, or nil
	Trace        *Trace  // where samples go, or nil
	Worst        Extremes

	parts   []part
	names   map[string]int
	sense   device.Sense
	net     net
	open    [3]bool // by branch
	blown   bool    // the way from the bank is open: see OpenMain
	maxStep float64
	heat    float64 // W of heaters
	books   Books
}

// part is a device with its wiring and what it did last.
type part struct {
	name     string
	device   device.Device
	role     Role
	bankSide bool
	opens    Branch
	ohm      float64
	cable    float64 // 1/ohm, bounded
	stops    uint64  // set of parts

	port        device.Port
	state       device.State
	alarm       device.Alarm
	volts, amps float64
	joules      float64
}

// Time returns the seconds since the run began.
func (e *Engine) Time() float64 { return e.sense.Time }

// Sense returns what is true now, as a faultless device would see it. Its slices
// are the bank's own.
func (e *Engine) Sense() device.Sense { return e.sense }

// Names returns the names of the parts; an event's Part is an index into it.
func (e *Engine) Names() []string {
	names := make([]string, len(e.parts))
	for i := range e.parts {
		names[i] = e.parts[i].name
	}
	return names
}

// Index returns a part's place among Names, or -1.
func (e *Engine) Index(name string) int {
	if k, ok := e.names[name]; ok {
		return k
	}
	return -1
}

// State returns what a part was doing during the last step.
func (e *Engine) State(part int) device.State { return e.parts[part].state }

// PartV and PartA return the voltage at a part's terminals and its current: given
// by a source, drawn by a load.
func (e *Engine) PartV(part int) float64 { return e.parts[part].volts }

// PartA returns a part's current; see PartV.
func (e *Engine) PartA(part int) float64 { return e.parts[part].amps }

// PartWh returns the energy a source gave at its terminals, or a load took.
func (e *Engine) PartWh(part int) float64 { return e.parts[part].joules / 3600 }

// Wrap replaces a part's device by what wrap makes of it: how a fault comes in.
// Error: no part of that name.
func (e *Engine) Wrap(name string, wrap func(device.Device) device.Device) error {
	k, ok := e.names[name]
	if !ok {
		return fmt.Errorf("engine: no part is called %q", name)
	}
	e.parts[k].device = wrap(e.parts[k].device)
	return nil
}

// Bypass feeds a part from the bank's own terminals, before the contactor.
// Error: no part of that name.
func (e *Engine) Bypass(name string) error {
	k, ok := e.names[name]
	if !ok {
		return fmt.Errorf("engine: no part is called %q", name)
	}
	e.parts[k].bankSide = true
	return nil
}

// OpenMain opens the way from the bank for good, as a fuse at its terminal does:
// bus and loads before the contactor are left without it.
func (e *Engine) OpenMain() { e.blown = true }

// rest shows the bank's rest voltage everywhere, before the first step.
func (e *Engine) rest() {
	e.net.bankV = e.Bank.Volts()
	e.net.busV = e.net.bankV
	e.look()
	for i := range e.parts {
		e.parts[i].volts = e.net.busV
	}
	e.Worst.begin(&e.sense)
}

// look fills the sense from the bank and the bus.
func (e *Engine) look() {
	s := &e.sense
	s.BankV, s.BusV, s.BankA = e.net.bankV, e.net.busV, e.net.amps
	s.GroupV, s.GroupC = e.Bank.Voltages(), e.Bank.Temperatures()
	s.LowV, s.HighV = e.Bank.Span()
	s.ColdC, s.HotC = e.Bank.Warmth()
	s.SurroundingC = e.SurroundingC
}

// Step moves everything on by dt seconds (> 0), in equal parts no longer than
// the longest step.
func (e *Engine) Step(dt float64) {
	parts := 1
	if dt > e.maxStep {
		parts = int(dt/e.maxStep-1e-9) + 1
	}
	for range parts {
		e.step(dt / float64(parts))
	}
	if e.Trace != nil {
		e.Trace.record(e)
	}
}

func (e *Engine) step(dt float64) {
	e.ask(dt)
	if e.open[BankBranch] {
		e.apart(dt)
	} else {
		e.together(dt)
	}
	e.Bank.Take(e.SurroundingC, e.heating())
	e.account(dt)
	e.look()
	e.sense.Time += dt
	e.Worst.note(&e.sense)
}

// accurate is the error (V a group) of the straight line put for the bank above
// which the step is solved again.
const accurate = 1e-4

// together solves the bus with the bank on it. The bank is a straight line in
// the current near where it is; when the step reaches a bend, the line is laid
// anew at the answer.
func (e *Engine) together(dt float64) {
	n := &e.net
	n.volts, n.ohm = e.Bank.Thevenin(dt)
	near := accurate * float64(e.Bank.Groups())
	for range 20 {
		amps := n.solve(n.amps)
		volts, ohm := e.Bank.Try(amps, dt)
		wrong := volts - n.bankV
		if wrong < near && wrong > -near {
			break
		}
		n.ohm = ohm
		n.volts = volts - ohm*amps
	}
}

// apart solves bus and bank each for itself.
func (e *Engine) apart(dt float64) {
	n := &e.net
	n.volts, n.ohm = e.Bank.Thevenin(dt)
	n.alone()
	n.bankV, _ = e.Bank.Try(n.amps, dt)
	n.island()
}
