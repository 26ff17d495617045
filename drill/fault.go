package drill

import (
	"fmt"

	"ampstead/assembly"
	"ampstead/device"
	"ampstead/fit"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// trouble is a fault and how it comes into a run. Faults change settings, wrap
// devices, or touch the bank; any two can be worked into one run. They are there
// from the start, save those that strike under way.
type trouble struct {
	Fault
	strike func(*turn)
	later  bool // it strikes under way, if at all
}

// faulty makes the faults of a rig.
type faulty struct {
	rig  *rig.Rig
	fit  *fit.Result
	a    *assembly.Assembly
	list []trouble
}

// How far things go wrong; ours. Each fault says in its How what was taken.
const (
	senseError  = 0.05 // a voltage sense is off by this share
	driftFactor = 3    // a relay has drifted by so many times its stated accuracy
	stuckC      = 20.0 // what a stuck thermometer reads, °C
	openC       = -40.0
	shortC      = 120.0
	runaway     = 1.3       // a stuck source rises to this over the top of the safe window
	leakHours   = 10000.0   // a leak would empty a full group in this time
	leftShare   = 0.9       // of the capacity of a group that lost some: what may be gone between two looks
	colderK     = 20.0      // the surroundings are colder by
	hotterK     = 15.0      // or hotter by
	coolingK    = 15.0      // the box is warmer by when what cooled it stands still
	strikeS     = 30 * 60.0 // what strikes on the road strikes after
	anyAccuracy = 0.01      // of a relay that states none
	whileA      = 1.0       // a source that gives more than this is charging
)

// troublesOf lists the faults a rig can have, by device in the order of its file.
func troublesOf(r *rig.Rig, res *fit.Result, a *assembly.Assembly) []trouble {
	f := &faulty{rig: r, fit: res, a: a}
	for k := range r.Charge {
		f.source(k)
	}
	for k := range a.Converters {
		f.consumer(a.Converters[k].Name, func(t *turn) *device.Converter { return t.a.Converters[k].Device })
	}
	for k := range a.Inverters {
		f.consumer(a.Inverters[k].Name, func(t *turn) *device.Converter { return &t.a.Inverters[k].Device.Converter })
	}
	f.directLoads()
	f.guards()
	f.contactors()
	f.heater()
	f.fuses()
	f.bank()
	f.surroundings()
	return f.list
}

func (f *faulty) add(device, what, kind string, tells bool, strike func(*turn), how string, args ...any) {
	f.list = append(f.list, trouble{
		Fault:  Fault{Name: device + ": " + what, Device: device, Kind: kind, How: fmt.Sprintf(how, args...), Tells: tells},
		strike: strike,
	})
}

func (f *faulty) lithium() bool { return f.fit.Kind.Family != cell.LeadAcid }

// percent writes a share as people say it.
func percent(share float64) string { return fmt.Sprintf("%.3g %%", 100*share) }

// celsius writes a temperature.
func celsius(c float64) string { return fmt.Sprintf("%.4g °C", c) }
