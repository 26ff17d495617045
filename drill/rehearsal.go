package drill

import (
	"fmt"

	q "ampstead/quantity"
	"ampstead/rig"
)

// dial writes values as a person sets them: in the units of the rig.
type dial struct{ sys q.System }

func (d dial) volts(v float64) string  { return q.Volts.Fixed(v, "V", 2) }
func (d dial) cell(v float64) string   { return q.Volts.Fixed(v, "V", 3) }
func (d dial) deg(v float64) string    { return q.Celsius.Text(v, d.sys) }
func (d dial) amps(v float64) string   { return q.Amperes.Text(v, d.sys) }
func (d dial) watts(v float64) string  { return q.Watts.Text(v, d.sys) }
func (d dial) lasts(s float64) string  { return q.Seconds.Text(s, d.sys) }
func (d dial) kelvin(v float64) string { return q.Kelvins.Text(v, d.sys) }

// Lines that stand before every test, and before those near live studs.
const (
	careful  = "tools insulated, rings and watch off, eyes covered, studs you do not measure at covered; somebody beside you who can open the main fuse"
	atRest   = "bank about half full and at rest: every charger off, loads you would miss off"
	settleS  = 60.0 // a cut-off is given this long where the file has no delay
	meterS   = 10.0 // and an alarm this
	warmestC = 60.0 // of a water bag laid on a sensor
)

// rehearser writes the tests of one rig.
type rehearser struct {
	*study
	dial
	halfV float64           // bank at rest, half full
	now   map[string]set    // settings as they are today, by path
	names map[string]string // of guards, by device and layer
	list  []Rehearsal
}

// set is a value in base units, or off.
type set struct {
	value float64
	on    bool
}

// rehearsal lists what can be tried for real without harm, one test for each thing
// that acts: a threshold is brought to the bank, never the bank to a threshold.
func (s *study) rehearsal() []Rehearsal {
	r := &rehearser{study: s, dial: dial{s.units()}, now: s.today(), names: map[string]string{}, list: []Rehearsal{}}
	r.halfV = s.fit.Kind.Curve.Voltage(0.5) * float64(s.rig.Bank.Series)
	for _, g := range s.guards {
		if key := g.Device + "|" + g.Layer; r.names[key] != "" {
			r.names[key] += both + g.Name
		} else {
			r.names[key] = g.Name
		}
	}
	for k := range s.rig.Protection.Relays {
		r.relay(&s.rig.Protection.Relays[k])
	}
	for k := range s.rig.Protection.Meters {
		r.meter(&s.rig.Protection.Meters[k])
	}
	for k := range s.rig.Protection.Cutouts {
		r.cutout(&s.rig.Protection.Cutouts[k])
	}
	for k := range s.rig.Charge {
		r.charger(&s.rig.Charge[k])
	}
	r.lowCuts()
	if s.rig.Heater != nil {
		r.heater(s.rig.Heater)
	}
	return r.list
}

// today is every setting as the engine has it.
func (s *study) today() map[string]set {
	m := map[string]set{}
	for _, x := range s.fit.Settings {
		value, on := x.Today.(float64)
		if x.Today == notGiven {
			value, on = x.Value.(float64)
		}
		m[x.Path] = set{value, on}
	}
	return m
}

func (r *rehearser) add(t Rehearsal) { r.list = append(r.list, t) }

// both joins the names of guards that one test tries together.
const both = "; "

// guard is the name of what is tested.
func (r *rehearser) guard(device, layer string) string {
	if name := r.names[device+"|"+layer]; name != "" {
		return name
	}
	return device + ": " + layer
}

// back is the line that sets a value back.
func back(name, value string) string { return fmt.Sprintf("%s back to %s", name, value) }

// opens is what can be seen when something is stopped.
func (r *rehearser) opens(drives string) string {
	for _, c := range r.rig.Protection.Contactors {
		if c.Name != drives {
			continue
		}
		return fmt.Sprintf("the %s opens with a click, and between its two studs a meter shows a voltage; near 0 V there means a welded contact", drives)
	}
	return drives + " stops: its current falls to nothing"
}

// lowCuts tests what ends a discharge.
func (r *rehearser) lowCuts() {
	for _, v := range r.rig.Inverters {
		r.lowCut("inverters", v.Name, or(v.Tolerance, assumedShare))
	}
	for _, v := range r.rig.Converters {
		r.lowCut("converters", v.Name, or(v.Tolerance, assumedShare))
	}
}

func (r *rehearser) lowCut(section, name string, share float64) {
	cut, again := r.now[section+"."+name+".low_cut"], r.now[section+"."+name+".restart"]
	if !cut.on {
		return
	}
	room := share * r.halfV
	t := Rehearsal{
		Name: name + ": low cut", Tests: r.guard(name, "daily low"),
		Before: []string{careful, fmt.Sprintf("%s; about %s at its terminals", atRest, r.volts(r.halfV)), "a small load on the " + name + ", such as a lamp"},
		Steps: []string{
			"measure the voltage at the terminals of the " + name,
			fmt.Sprintf("raise its restart to %s above what you measured, then its low cut a step at a time, with a minute at each", r.volts(4*room)),
		},
		Expect: fmt.Sprintf("the lamp goes out within %s of the low cut passing what you measured, between %s below and %s above it", r.lasts(settleS), r.volts(room), r.volts(room)),
		Stop:   fmt.Sprintf("the low cut stands %s above what you measured and the lamp still burns: it would not have cut off in earnest", r.volts(3*room)),
		After:  []string{back("low cut", r.volts(cut.value)), "the lamp burns again"},
	}
	if again.on {
		t.After = []string{back("low cut", r.volts(cut.value)), back("restart", r.volts(again.value)), "the lamp burns again"}
	}
	r.add(t)
}

// charger tests that a charge ends at the voltage set, and the charger's own lock.
func (r *rehearser) charger(c *rig.Source) {
	at := "charge." + c.Name + ".settings."
	if v := r.now[at+"absorption"]; v.on {
		share := or(c.Tolerance, assumedShare)
		low := r.halfV + 0.02*r.halfV
		r.add(Rehearsal{
			Name: c.Name + ": charge voltage", Tests: r.guard(c.Name, "daily high"),
			Before: []string{careful, fmt.Sprintf("%s; about %s at its terminals", atRest, r.volts(r.halfV)), c.Name + " able to charge, the other chargers off"},
			Steps: []string{
				fmt.Sprintf("note its charge voltage, then set it to 2 %% above what you measure at the bank (about %s)", r.volts(low)),
				"let it charge, and measure at its own terminals",
			},
			Expect: fmt.Sprintf("the voltage stands still within %s of the setting, and from then on the current falls", r.volts(share*low)),
			Stop:   fmt.Sprintf("the voltage passes the setting by more than %s: switch it off, it does not hold its voltage", r.volts(3*share*low)),
			After:  []string{back("charge voltage", r.volts(v.value)), "at the first full charge stay until it has ended by itself"},
		})
	}
	if lock := r.now[at+"frost_lock"]; lock.on && c.Thermometer == "bank" {
		r.add(r.chill(c.Name+": frost lock", r.guard(c.Name, frostLayer), "the sensor of "+c.Name, c.Name+" stops: its current falls to nothing", lock.value, assumedK))
	}
}

// heater tests the thermostat both ways.
func (r *rehearser) heater(h *rig.Heater) {
	on, off := r.now["heater.on"], r.now["heater.off"]
	if !on.on || !off.on {
		return
	}
	amps := ""
	if h.Supply == "" || h.Supply == "bank" {
		amps = fmt.Sprintf(" (about %s from the bank)", r.amps(float64(*h.Power)/r.halfV))
	}
	tol := or(h.Tolerance, assumedK)
	r.add(Rehearsal{
		Name: h.Name + ": thermostat", Tests: r.guard(h.Name, frostLayer),
		Before: []string{careful, "read the bank's temperature; a thermometer on the pad itself"},
		Steps: []string{
			fmt.Sprintf("set off to %s and on to %s above the bank's temperature", r.kelvin(4*tol+4), r.kelvin(2*tol+2)),
			fmt.Sprintf("watch it draw %s%s for a minute", r.watts(float64(*h.Power)), amps),
			fmt.Sprintf("set on and off to %s and %s below the bank's temperature", r.kelvin(2*tol+4), r.kelvin(2*tol+2)),
		},
		Expect: "it heats as soon as on is above the bank's temperature, and stops as soon as off is below it",
		Stop:   "the pad itself passes " + r.deg(40) + ", or smells",
		After:  []string{back("on", r.deg(on.value)), back("off", r.deg(off.value))},
	})
}
