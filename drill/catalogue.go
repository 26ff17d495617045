package drill

import (
	"slices"

	"ampstead/circuit"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// addition is a change a handy person can make to a rig.
type addition struct {
	name    string
	about   string   // what it must not share with what is there
	against []string // kinds of harm it can do anything about
	change  func(*rig.Rig)
	sheets  []string  // beginnings of the paths that are then set as on the settings sheet
	entry   entry     // of the catalogue, to make it again on another rig
	after   *addition // made before it, when two are tried together
}

// entry makes an addition to a rig, nil where the rig has no use for it.
type entry func(*rig.Rig, *fit.Result) *addition

// All kinds of harm that settings can do something about, and those of heat.
var (
	anyHarm    = []string{"cell high", "cell low", "frost charge", "cell hot", "current"}
	chargeHarm = []string{"cell high", "frost charge", "cell hot", "current"}
	lowHarm    = []string{"cell low", "current"}
	hotHarm    = []string{"cell hot"}
	hotCharge  = []string{"cell hot", "cell high"}
)

// catalogue is what is tried, the least first: settings before wires, wires before
// a switch on a line that is there, that before a device with a contactor of its
// own. Common practice, no source.
var catalogue = []entry{
	settingsAsAdvised, behindTheDisconnect,
	mainFuse, padSwitch, frostSwitch, heatSwitch,
	meterToContactor, chargeSwitchedByMeter,
	secondChargeRelay, secondLoadRelay,
	frostContactor, heatContactor, secondBankRelay,
}

func settingsAsAdvised(_ *rig.Rig, res *fit.Result) *addition {
	if !slices.ContainsFunc(res.Settings, func(s fit.Setting) bool { return s.Differs }) {
		return nil
	}
	return &addition{
		name:    "every device set as on its settings sheet",
		about:   "nothing new is fitted; what a device cannot be set to stays as it is",
		against: anyHarm, change: func(*rig.Rig) {}, sheets: []string{""},
	}
}

func behindTheDisconnect(r *rig.Rig, _ *fit.Result) *addition {
	bypass := func(l rig.Load) bool { return l.BypassesRelay }
	if !slices.ContainsFunc(r.Loads, bypass) || len(r.Protection.Contactors) == 0 {
		return nil
	}
	return &addition{
		name:    "every load fed from behind the disconnect",
		about:   "what must go on running, such as an alarm, gets a small battery of its own",
		against: lowHarm,
		change: func(r *rig.Rig) {
			for k := range r.Loads {
				r.Loads[k].BypassesRelay = false
			}
		},
	}
}

// The interrupt rating of the class that holds a short of a lithium bank, A, and
// the share by which a fuse is rated above the current it carries for long; as in
// the rules of wire.
const (
	classTAmps = 20000.0
	fuseRoom   = 1.25
)

func mainFuse(r *rig.Rig, res *fit.Result) *addition {
	holds := func(f *rig.Fuse) bool { return or(f.Interrupt, 0) >= classTAmps }
	if slices.ContainsFunc(circuit.Fuses(r, circuit.AtBank), holds) {
		return nil
	}
	return &addition{
		name:    "a main fuse that interrupts 20 kA, such as class T",
		about:   "within a hand's breadth of the bank's terminal, rated for the bank's highest voltage; the contactor is no fuse",
		against: []string{"current"},
		change:  func(r *rig.Rig) { interrupting(r, res.Window.BankLowV) },
	}
}

// interrupting makes every main fuse hold a short, or adds one that carries the
// inverters at the lowest voltage.
func interrupting(r *rig.Rig, lowV float64) {
	amps := q.Current(classTAmps)
	found := false
	for k := range r.Protection.Fuses {
		if f := &r.Protection.Fuses[k]; f.Guards == circuit.AtBank {
			f.Interrupt, found = &amps, true
		}
	}
	if found {
		return
	}
	watts := 0.0
	for _, v := range r.Inverters {
		watts += float64(*v.Power)
	}
	rating := q.Current(max(1, fuseRoom*watts/lowV))
	r.Protection.Fuses = append(r.Protection.Fuses, rig.Fuse{Name: fresh(r, "main fuse"), Guards: circuit.AtBank, Rating: &rating, Interrupt: &amps})
}

// switchSpread is the accuracy of a temperature switch as sold, K; common
// practice, no source.
const switchSpread = 2.0

// withCutout adds a temperature switch. One side is off, so that fit advises only
// the other.
func withCutout(r *rig.Rig, name, stops string, cold bool) {
	tol := q.TemperatureStep(switchSpread)
	c := rig.Cutout{Name: name, Stops: stops, Tolerance: &tol}
	off := rig.Setting[q.Temperature]{Given: true, Off: true}
	if cold {
		c.Above = off
	} else {
		c.Below = off
	}
	r.Protection.Cutouts = append(r.Protection.Cutouts, c)
}

// cutoutSheet is the one side of a switch that is to be set.
func cutoutSheet(name string, cold bool) []string {
	if cold {
		return []string{"protection.cutouts." + name + ".below"}
	}
	return []string{"protection.cutouts." + name + ".above"}
}

func padSwitch(r *rig.Rig, _ *fit.Result) *addition {
	if r.Heater == nil {
		return nil
	}
	name := fresh(r, "pad switch")
	return &addition{
		name:    "a " + name + " in the heater's lead, opening when it gets too hot",
		about:   "on the pad itself, in series with the thermostat and with any other switch, sharing neither sensor nor contact with them",
		against: hotHarm, sheets: cutoutSheet(name, false),
		change: func(r *rig.Rig) { withCutout(r, name, "heater", false) },
	}
}

func anyStopInput(r *rig.Rig) bool {
	return slices.ContainsFunc(r.Charge, func(s rig.Source) bool { return s.StopInput })
}

func frostSwitch(r *rig.Rig, _ *fit.Result) *addition {
	if !anyStopInput(r) {
		return nil
	}
	name := fresh(r, "frost switch")
	return &addition{
		name:    "a " + name + " on the chargers' stop line",
		about:   "on another module than the sensor that is there, with its own wires; it reaches only chargers that have a stop input",
		against: []string{"frost charge"}, sheets: cutoutSheet(name, true),
		change: func(r *rig.Rig) { withCutout(r, name, "charge", true) },
	}
}

func heatSwitch(r *rig.Rig, _ *fit.Result) *addition {
	if !anyStopInput(r) {
		return nil
	}
	name := fresh(r, "heat switch")
	return &addition{
		name:    "a " + name + " on the chargers' stop line",
		about:   "on the module in the middle, with its own wires; it reaches only chargers that have a stop input",
		against: hotCharge, sheets: cutoutSheet(name, false),
		change: func(r *rig.Rig) { withCutout(r, name, "charge", false) },
	}
}
