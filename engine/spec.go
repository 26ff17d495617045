package engine

import (
	"fmt"
	"math"

	"ampstead/device"
	"ampstead/physics/bank"
)

// Role is what a part is to the bus.
type Role uint8

// The roles, in the order in which devices are stepped.
const (
	Guard  Role = iota // watches, and stops other parts
	Switch             // a contactor: cuts off a branch while it is open
	Source
	Load
)

// Branch is what a contactor cuts off.
type Branch uint8

// The branches.
const (
	BankBranch   Branch = iota // the bank from the bus
	ChargeBranch               // all sources
	LoadBranch                 // all loads behind the contactor
)

// Part is one device and how it is connected.
type Part struct {
	Name   string
	Device device.Device
	Role   Role

	Ohm      float64  // its cable to the bus, out and back
	BankSide bool     // fed from the bank's terminals, before the contactor
	Opens    Branch   // of a switch
	Stops    []string // of a guard: names of the parts it stops or opens
}

// Spec is a rig ready to be stepped.
type Spec struct {
	Bank         *bank.Bank
	MainOhm      float64 // bank terminals to bus, out and back
	SurroundingC float64
	Parts        []Part
	MaxStepS     float64 // longer steps are taken in parts; 0 is one minute
	Log          *Log    // may be nil
	Trace        *Trace  // may be nil
}

// mostParts is how many parts fit into a set of parts.
const mostParts = 64

// leastOhm keeps two sources on one point from fighting: no regulator is stiffer.
const leastOhm = 1e-4

// New makes an engine at rest. Errors: no bank, a name given twice or unknown, a
// part without a device, a resistance that is negative or no number.
func New(s Spec) (*Engine, error) {
	if s.Bank == nil {
		return nil, fmt.Errorf("engine: no bank given")
	}
	if len(s.Parts) > mostParts {
		return nil, fmt.Errorf("engine: %d parts; at most %d", len(s.Parts), mostParts)
	}
	if !(s.MainOhm >= 0) || math.IsInf(s.MainOhm, 0) {
		return nil, fmt.Errorf("engine: main cable of %g Ω", s.MainOhm)
	}
	e := &Engine{
		Bank: s.Bank, SurroundingC: s.SurroundingC, Log: s.Log, Trace: s.Trace,
		maxStep: s.MaxStepS, names: make(map[string]int, len(s.Parts)),
	}
	if e.maxStep <= 0 {
		e.maxStep = 60
	}
	e.net.main = s.MainOhm
	e.net.floor = s.Bank.RestVolts() / 4
	if err := e.addAll(s.Parts); err != nil {
		return nil, err
	}
	e.rest()
	return e, nil
}

// addAll places the parts by role, then ties guards to what they stop.
func (e *Engine) addAll(parts []Part) error {
	sources := 0
	for role := Guard; role <= Load; role++ {
		for _, p := range parts {
			if p.Role != role {
				continue
			}
			if err := e.add(p); err != nil {
				return err
			}
			if role == Source {
				sources++
			}
		}
	}
	if len(e.parts) != len(parts) {
		return fmt.Errorf("engine: a part has no known role")
	}
	e.net.feeds = make([]feed, 0, sources)
	return e.tie(parts)
}

func (e *Engine) add(p Part) error {
	switch _, twice := e.names[p.Name]; {
	case twice:
		return fmt.Errorf("engine: two parts are called %q", p.Name)
	case p.Device == nil:
		return fmt.Errorf("engine: %q has no device", p.Name)
	case p.Opens > LoadBranch:
		return fmt.Errorf("engine: %q opens no known branch", p.Name)
	case !(p.Ohm >= 0) || math.IsInf(p.Ohm, 0):
		return fmt.Errorf("engine: %q has a cable of %g Ω", p.Name, p.Ohm)
	}
	e.names[p.Name] = len(e.parts)
	e.parts = append(e.parts, part{
		name: p.Name, device: p.Device, role: p.Role, ohm: p.Ohm, cable: 1 / max(p.Ohm, leastOhm), bankSide: p.BankSide, opens: p.Opens,
	})
	return nil
}

func (e *Engine) tie(parts []Part) error {
	for _, p := range parts {
		for _, name := range p.Stops {
			k, ok := e.names[name]
			if !ok {
				return fmt.Errorf("engine: %q stops %q, which is not among the parts", p.Name, name)
			}
			e.parts[e.names[p.Name]].stops |= 1 << k
		}
	}
	return nil
}
