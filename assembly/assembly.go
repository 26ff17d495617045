package assembly

import (
	"ampstead/device"
	"ampstead/engine"
	"ampstead/fit"
	"ampstead/physics/bank"
	"ampstead/rig"
)

// Options are the state a rig starts in and how it is watched.
type Options struct {
	SoC      float64 // of the bank, fraction
	TempC    float64 // of bank and surroundings, °C
	MaxStepS float64 // longest step of the engine; 0 is one minute
	Table    *bank.Table
	Log      *engine.Log
	Silent   bool // leave out guards that only warn
	ByHand   bool // switch off by hand in frost what no device locks; see Assembly.Unlocked
}

// Assembly is a rig ready to be stepped, with a handle on each device.
type Assembly struct {
	Engine     *engine.Engine
	Bank       *bank.Bank
	Chargers   []Charger // in the order of the rig file
	Converters []Converter
	Inverters  []Inverter
	Direct     []Direct // loads on the bank: those behind the disconnect, those before it
	Heater     int      // its part, or -1
	Pad        *device.Heater
	HeatJPerK  float64 // heat the bank holds
	Guards     []Guard
	Relays     []Relay
	Contactors []int    // their parts
	Unlocked   []string // sources that nothing stops when the bank is in frost
	LossWPerK  float64  // of the bank's box
	Assumed    []string // what the file does not say and was set or taken
}

// Charger is a charge source.
type Charger struct {
	Source     *rig.Source
	Device     *device.Charger
	Part       int
	Efficiency float64 // from panels to its terminals
}

// Converter is a dc converter; its demand is set between steps.
type Converter struct {
	Name   string
	Device *device.Converter
	Part   int
}

// Inverter is a mains inverter; its demand is set between steps.
type Inverter struct {
	Name   string
	Device *device.Inverter
	Part   int
}

// Direct is all loads fed straight from the bank on one side of the disconnect.
type Direct struct {
	Name     string
	Device   *device.Load
	Part     int
	BankSide bool
}

// Relay is a voltage relay.
type Relay struct {
	Name     string
	Device   *device.Relay
	Part     int
	CutsBank bool // it opens a contactor between bank and bus
}

// Guard is a device that stops others.
type Guard struct {
	Name   string
	Device device.Device
	Part   int
	Frost  bool     // it acts on cold only
	Stops  []string // names of parts
}

// builder is an assembly in the making.
type builder struct {
	rig   *rig.Rig
	fit   *fit.Result
	o     Options
	out   *Assembly
	parts []engine.Part
}

// Engine assembles a rig. res is what fit makes of the same rig. Errors come from
// values the engine refuses.
func Engine(r *rig.Rig, res *fit.Result, o Options) (*Assembly, error) {
	b := &builder{rig: r, fit: res, o: o, out: &Assembly{Heater: -1}}
	bk, err := b.bank()
	if err != nil {
		return nil, err
	}
	if err := b.devices(); err != nil {
		return nil, err
	}
	main, err := b.mainOhm()
	if err != nil {
		return nil, err
	}
	e, err := engine.New(engine.Spec{
		Bank: bk, MainOhm: main, SurroundingC: o.TempC, Parts: b.parts, MaxStepS: o.MaxStepS, Log: o.Log,
	})
	if err != nil {
		return nil, err
	}
	b.out.Engine, b.out.Bank = e, bk
	b.number()
	return b.out, nil
}

// devices adds every part of the rig.
func (b *builder) devices() error {
	for k := range b.rig.Charge {
		if err := b.charger(&b.rig.Charge[k]); err != nil {
			return err
		}
	}
	if err := b.consumers(); err != nil {
		return err
	}
	b.heater()
	b.contactors()
	b.relays()
	b.meters()
	b.cutouts()
	b.byHand()
	return nil
}

func (b *builder) add(p engine.Part) { b.parts = append(b.parts, p) }

// number looks up where the engine put each part.
func (b *builder) number() {
	a := b.out
	at := a.Engine.Index
	for k := range a.Chargers {
		a.Chargers[k].Part = at(a.Chargers[k].Source.Name)
	}
	for k := range a.Converters {
		a.Converters[k].Part = at(a.Converters[k].Name)
	}
	for k := range a.Inverters {
		a.Inverters[k].Part = at(a.Inverters[k].Name)
	}
	for k := range a.Direct {
		a.Direct[k].Part = at(a.Direct[k].Name)
	}
	for k := range a.Guards {
		a.Guards[k].Part = at(a.Guards[k].Name)
	}
	for k := range a.Relays {
		a.Relays[k].Part = at(a.Relays[k].Name)
	}
	for _, c := range b.rig.Protection.Contactors {
		a.Contactors = append(a.Contactors, at(c.Name))
	}
	if h := b.rig.Heater; h != nil {
		a.Heater = at(h.Name)
	}
}
