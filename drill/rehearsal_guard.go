package drill

import (
	"fmt"

	"ampstead/rig"
)

func (r *rehearser) relay(x *rig.Relay) {
	at := "protection.relays." + x.Name + "."
	share := or(x.Tolerance, assumedShare)
	for _, side := range []struct {
		name, layer, turn, past, beyond string
		resetTo                         string
	}{
		{"high", "disconnect high", "lower", "below", "below", "below"},
		{"low", "disconnect low", "raise", "above", "above", "above"},
	} {
		trip, reset, delay := r.now[at+side.name], r.now[at+side.name+"_reset"], r.now[at+side.name+"_delay"]
		if !trip.on {
			continue
		}
		room := share * r.halfV
		t := Rehearsal{
			Name: x.Name + ": " + side.name + " trip", Tests: r.guard(x.Name, side.layer),
			Before: []string{careful, fmt.Sprintf("%s; about %s at its terminals", atRest, r.volts(r.halfV)), "computers and anything that minds losing power switched off"},
			Steps: []string{
				"measure the voltage where the " + x.Name + " senses it",
				fmt.Sprintf("set %s reset to %s %s what you measured, so that it stays open", side.name, r.volts(6*room), side.resetTo),
				fmt.Sprintf("%s %s a step at a time, and wait %s at each", side.turn, side.name, r.lasts(delay.value+2)),
			},
			Expect: fmt.Sprintf("%s after %s has come %s what you measured, give or take %s, %s", r.lasts(delay.value), side.name, side.past, r.volts(room), r.opens(x.Drives)),
			Stop:   fmt.Sprintf("%s stands %s %s what you measured and nothing has opened: it would not open in earnest either; leave every charger and load off until it does", side.name, r.volts(3*room), side.beyond),
			After:  []string{back(side.name, r.volts(trip.value))},
		}
		if reset.on {
			t.After = append(t.After, back(side.name+" reset", r.volts(reset.value)))
		}
		t.After = append(t.After, r.closes(x.Drives))
		r.add(t)
	}
}

// closes is what to see to when a contactor or source comes back.
func (r *rehearser) closes(drives string) string {
	for _, c := range r.rig.Protection.Contactors {
		switch {
		case c.Name != drives:
		case c.PreCharge == nil:
			return "before it closes again, fill the capacitors behind it through a resistor: the " + drives + " has no pre-charge"
		default:
			return "it closes again after its pre-charge; behind it stands the bank's voltage"
		}
	}
	return drives + " runs again"
}

func (r *rehearser) meter(m *rig.Meter) {
	at := "protection.meters." + m.Name + "."
	tol := or(m.Tolerance, assumedCellV)
	cellV := r.halfV / float64(max(1, r.rig.Bank.Series))
	for _, side := range []struct{ key, name, layer, turn, extreme, past string }{
		{"alarm_high", "high alarm", "alarm high", "lower", "highest", "below"},
		{"alarm_low", "low alarm", "alarm low", "raise", "lowest", "above"},
	} {
		if v := r.now[at+side.key]; v.on {
			r.add(Rehearsal{
				Name: m.Name + ": " + side.name, Tests: r.guard(m.Name, side.layer),
				Before: []string{fmt.Sprintf("%s; about %s at each group", atRest, r.cell(cellV)), "read every group, and compare two of them with a meter you trust: within " + r.cell(2*tol)},
				Steps:  []string{fmt.Sprintf("read the %s group", side.extreme), fmt.Sprintf("%s the %s to %s %s that reading", side.turn, side.name, r.cell(2*tol+0.01), side.past)},
				Expect: fmt.Sprintf("it warns within %s, loud enough to wake you where you sleep%s", r.lasts(meterS), r.also(m.Drives)),
				Stop:   fmt.Sprintf("no warning with the alarm %s %s the reading: it warns of nothing; do not charge unattended", r.cell(0.05), side.past),
				After:  []string{back(side.name, r.cell(v.value)), "it falls quiet"},
			})
		}
	}
	r.spreadAndHeat(m, r.now[at+"spread"], r.now[at+"hot"])
}

// spreadAndHeat tests the other alarms of a cell meter.
func (r *rehearser) spreadAndHeat(m *rig.Meter, spread, hot set) {
	if spread.on {
		r.add(Rehearsal{
			Name: m.Name + ": spread alarm", Tests: r.guard(m.Name, spreadLayer),
			Before: []string{"bank at rest; highest and lowest group read on the meter"},
			Steps:  []string{"set the spread alarm to less than lies between the two; where they stand too close for its finest step, put a large load on for a minute and read again"},
			Expect: fmt.Sprintf("it warns within %s%s", r.lasts(meterS), r.also(m.Drives)),
			Stop:   "no warning with the alarm at half of what lies between them: it will not show a group that drifts",
			After:  []string{back("spread alarm", r.cell(spread.value)), "it falls quiet"},
		})
	}
	if hot.on {
		r.add(Rehearsal{
			Name: m.Name + ": hot alarm", Tests: r.guard(m.Name, heatLayer),
			Before: []string{"bank at rest, its temperature read on the meter"},
			Steps:  []string{fmt.Sprintf("set the hot alarm %s below the temperature it shows", r.kelvin(3))},
			Expect: fmt.Sprintf("it warns within %s%s", r.lasts(meterS), r.also(m.Drives)),
			Stop:   "no warning within a minute: it does not feel the bank",
			After:  []string{back("hot alarm", r.deg(hot.value)), "it falls quiet"},
		})
	}
}

// also adds what a meter's output switches.
func (r *rehearser) also(drives string) string {
	if drives == "" {
		return ""
	}
	return "; and " + r.opens(drives)
}

func (r *rehearser) cutout(c *rig.Cutout) {
	at := "protection.cutouts." + c.Name + "."
	tol := or(c.Tolerance, assumedK)
	expect := r.stops(c)
	if v := r.now[at+"below"]; v.on {
		r.add(r.chill(c.Name+": cold", r.guard(c.Name, frostLayer), "the sensor of the "+c.Name, expect, v.value, tol))
	}
	if v := r.now[at+"above"]; v.on {
		r.add(r.warm(c, expect, v.value, tol))
	}
}

// stops says what can be seen when a cut-out acts.
func (r *rehearser) stops(c *rig.Cutout) string {
	switch {
	case c.Stops == "charge":
		return "every charger with a stop input stops: its current falls to nothing"
	case c.Stops == "heater" || r.rig.Heater != nil && c.Stops == r.rig.Heater.Name:
		return "the pad stops drawing"
	}
	return r.opens(c.Stops)
}

// chill tests what acts on cold, with ice on its sensor and none on the cells.
func (r *rehearser) chill(name, tests, sensor, expect string, below, tol float64) Rehearsal {
	limit := r.fit.Kind.ChargeMinC.Value
	return Rehearsal{
		Name: name, Tests: tests,
		Before: []string{fmt.Sprintf("bank between %s and %s and charging with a few amperes from each source it is to stop", r.deg(15), r.deg(30)), "an ice pack in a dry cloth and a thermometer; no water near the terminals"},
		Steps:  []string{fmt.Sprintf("take %s off the module, or lay the pack on the sensor alone, the thermometer beside it", sensor), "watch the thermometer fall; the cells themselves stay warm, so charging harms nothing meanwhile"},
		Expect: fmt.Sprintf("between %s and %s at the sensor %s", r.deg(below+tol), r.deg(below-tol), expect),
		Stop:   fmt.Sprintf("the sensor is at %s and it still charges: switch the chargers off by hand and keep them off in the cold until it works", r.deg(max(limit, below-tol-2))),
		After:  []string{"sensor dry and fixed back on the coldest module", fmt.Sprintf("set value unchanged at %s", r.deg(below)), "charging begins again by itself once the sensor is warm"},
	}
}

// warm tests what acts on heat, with a water bag on its sensor alone.
func (r *rehearser) warm(c *rig.Cutout, expect string, above, tol float64) Rehearsal {
	bag := min(warmestC, above+tol+10)
	return Rehearsal{
		Name: c.Name + ": heat", Tests: r.guard(c.Name, heatLayer),
		Before: []string{fmt.Sprintf("what it is to stop is running; a closed bag of water at about %s in a cloth, and a thermometer", r.deg(bag)), "no flame, no hot-air gun; the bag lies on the sensor and not on a cell"},
		Steps:  []string{fmt.Sprintf("take the sensor of the %s off, lay it on the bag with the thermometer beside it", c.Name)},
		Expect: fmt.Sprintf("between %s and %s at the sensor %s", r.deg(above-tol), r.deg(above+tol), expect),
		Stop:   fmt.Sprintf("the sensor is at %s and nothing has stopped: it would not stop in earnest", r.deg(min(warmestC, above+tol+5))),
		After:  []string{"sensor dry and back where it belongs", fmt.Sprintf("set value unchanged at %s", r.deg(above)), "what was stopped runs again once the sensor has cooled"},
	}
}
