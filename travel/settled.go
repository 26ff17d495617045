package travel

import (
	"math"

	"ampstead/assembly"
	"ampstead/device"
)

// longMinutes and someMinutes are taken as one step while no device can switch
// within them.
const (
	hourMinutes = 60 // in a brisk year only
	longMinutes = 15
	someMinutes = 5
)

// stretch returns how many minutes to take at once and the engine's step (s)
// within them. A minute is taken by itself wherever a device may switch; while
// none can, five or fifteen are one step, with the means of sun and demand. Near
// a low cut steps are shorter than its delay, so that it is not overrun. However
// coarse sun and habits are wanted, cut-offs are not passed by.
func (r *drive) stretch(m int) (n int, each float64) {
	step := r.w.stepS
	if r.nearCut(m) {
		return 1, min(step, r.w.nearS())
	}
	n = min(max(1, int(step/60)), minutes-m)
	switch {
	case step < 60 || r.w.exact:
		return n, min(step, 60)
	case step > 60 && r.settled(m, n):
		return n, longest
	case step > 60:
		return 1, 60
	case r.w.brisk:
		return r.brisk(m)
	case m%longMinutes == 0 && r.settled(m, longMinutes):
		return longMinutes, longest
	case m%someMinutes == 0 && r.settled(m, someMinutes):
		return someMinutes, longest
	}
	return 1, step
}

// cutS is the step (s) near a low cut.
const cutS = 5.0

// nearCut reports whether a low cut can be reached in the next minute.
func (r *drive) nearCut(m int) bool {
	volts := r.a.Bank.Volts()
	if volts > r.highestCut+0.2*r.steep/steep {
		return false
	}
	var give reached
	for i := range r.offers {
		w := r.offers[i][m]
		give.low, give.high = give.low+w, give.high+w
	}
	clear := r.clear(m, 1, give, volts)
	for i := range r.a.Converters {
		if c := &r.a.Converters[i]; r.cuts(c.Device, c.Part, clear) {
			return true
		}
	}
	for i := range r.a.Inverters {
		if v := &r.a.Inverters[i]; r.cuts(&v.Device.Converter, v.Part, clear) {
			return true
		}
	}
	return false
}

func (r *drive) cuts(c *device.Converter, part int, clear float64) bool {
	return r.a.Engine.State(part) == device.On && r.a.Engine.PartV(part) < c.LowCutV+clear
}

// settled reports whether no device can switch in the next minutes: the voltage
// keeps clear of every threshold, whatever sun and demand do meanwhile.
func (r *drive) settled(m, n int) bool {
	if r.driving(m) != r.driving(m+n-1) {
		return false
	}
	if r.books.cutOff() {
		return r.dead(m, n)
	}
	if !r.heaterStays(n) {
		return false
	}
	var give reached
	for i := range r.offers {
		w := reach(r.offers[i][m : m+n])
		if w.low == 0 && w.high > 0 {
			return false
		}
		r.most[i] = w.high
		if r.gives(i) {
			give.low, give.high = give.low+w.low, give.high+w.high
		}
	}
	volts := r.a.Bank.Volts()
	clear := r.clear(m, n, give, volts)
	return r.chargersStay(m, clear) && r.consumersStay(m, n, volts, clear) && r.relaysStay(volts, clear)
}

// dead reports whether a bank that was cut off for being empty stays so: there is
// nothing to charge it with.
func (r *drive) dead(m, n int) bool {
	for i := range r.a.Relays {
		if r.held[i].any() || r.a.Engine.State(r.a.Relays[i].Part) == device.TrippedHigh {
			return false
		}
	}
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		supplied := i < len(r.offers) && reach(r.offers[i][m:m+n]).high > 0 || c.Source.Kind == "mains" && r.place.mainsA > 0 ||
			c.Source.Kind == "alternator" && r.driving(m)
		if supplied || r.a.Engine.State(c.Part) != device.Unsupplied {
			return false
		}
	}
	return true
}

// reached is from where to where something goes.
type reached struct{ low, high float64 }

func reach(x []float64) reached {
	r := reached{x[0], x[0]}
	for _, v := range x[1:] {
		if v < r.low {
			r.low = v
		}
		if v > r.high {
			r.high = v
		}
	}
	return r
}

// steep is more than the rest voltage of a cell changes with its charge where it
// is in daily use, V for the whole charge.
const steep = 4.0

// coldOhm is what a bank and its cables resist after minutes in the cold, over
// the bank's 10 s resistance at 25 °C.
const coldOhm = 3.5

// clear is by how much the voltage can change in some minutes, V: by the drop of
// the current that can come or go, and by the charge that can move.
func (r *drive) clear(m, n int, give reached, volts float64) float64 {
	var take reached
	for _, feed := range r.demand.Watts {
		w := reach(feed[m : m+n])
		take.low, take.high = take.low+w.low, take.high+w.high
	}
	now := r.a.Bank.Amps()
	high := (give.high + r.otherWatts(m) - take.low) / volts
	low := (0.9*give.low - 1.2*take.high - r.idleW) / volts
	if r.a.Heater >= 0 {
		low -= r.heaterW / volts
	}
	change := max(math.Abs(high-now), math.Abs(low-now))
	moved := max(math.Abs(high), math.Abs(low), math.Abs(now)) * float64(n) / 60
	return change*r.ohm + r.steep*moved/r.w.fit.Cell.Capacity
}

// gives reports whether a source has not ended its charge or been stopped.
func (r *drive) gives(i int) bool {
	switch r.a.Engine.State(r.a.Chargers[i].Part) {
	case device.Charged, device.Stopped, device.FrostLocked:
		return false
	}
	return true
}

// otherWatts is what mains and alternator chargers can give.
func (r *drive) otherWatts(m int) float64 {
	watts := 0.0
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		if !r.gives(i) {
			continue
		}
		if c.Source.Kind == "mains" && r.place.mainsA > 0 || c.Source.Kind == "alternator" && r.driving(m) {
			watts += c.Device.LimitA * c.Device.AbsorptionV
		}
	}
	return watts
}

// heaterStays reports whether the thermostat does not switch in some minutes.
func (r *drive) heaterStays(n int) bool {
	if r.heater == nil {
		return true
	}
	tempC := r.a.Bank.Temperatures()[0]
	if r.a.Engine.State(r.a.Heater) == device.On {
		return tempC+r.heatK*float64(n)*60 < r.heater.OffC
	}
	cooling := r.a.LossWPerK * max(0, tempC-r.a.Engine.SurroundingC+nearC) / r.a.HeatJPerK
	return tempC-cooling*float64(n)*60 > r.heater.OnC
}

// nearC is by how much (K) air or a thermometer may move meanwhile.
const nearC = 2.0

func (r *drive) chargersStay(m int, clear float64) bool {
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		supplied := r.most[i] > 0
		switch c.Source.Kind {
		case "mains":
			supplied = r.place.mainsA > 0
		case "alternator":
			supplied = r.driving(m)
		}
		if !r.chargerStays(i, c, supplied, clear) {
			return false
		}
	}
	return true
}

func (r *drive) chargerStays(i int, c *assembly.Charger, supplied bool, clear float64) bool {
	state, d := r.a.Engine.State(c.Part), c.Device
	if supplied == (state == device.Unsupplied) {
		return false
	}
	volts := r.a.Engine.PartV(c.Part)
	switch state {
	case device.Unsupplied, device.FrostLocked, device.Stopped:
		return true
	case device.Charged:
		return volts > d.RestartV+clear
	case device.Bulk:
		return volts < r.target(d)-clear && r.most[i]*c.Efficiency < 0.95*d.LimitA*volts
	}
	return false
}

// target is the lowest charge voltage a charger can have in the next minutes.
func (r *drive) target(d *device.Charger) float64 {
	if d.CompensationVPerK == 0 {
		return d.AbsorptionV
	}
	sense := r.a.Engine.Sense()
	tempC, ok := d.Probe.Read(&sense)
	if !ok {
		return d.AbsorptionV
	}
	return d.AbsorptionV + d.CompensationVPerK*(tempC-25) - nearC*math.Abs(d.CompensationVPerK)
}

func (r *drive) consumersStay(m, n int, volts, clear float64) bool {
	k := 2
	for i := range r.a.Converters {
		if !stays(r.a.Converters[i].Device, r.a.Engine.State(r.a.Converters[i].Part), volts, clear) {
			return false
		}
		k++
	}
	for i := range r.a.Inverters {
		v := r.a.Inverters[i].Device
		most := reach(r.demand.Watts[k][m : m+n]).high
		if !stays(&v.Converter, r.a.Engine.State(r.a.Inverters[i].Part), volts, clear) || most > v.RatedW {
			return false
		}
		k++
	}
	return true
}

// stays reports whether a converter goes on as it is.
func stays(c *device.Converter, state device.State, volts, clear float64) bool {
	switch state {
	case device.On:
		return volts > max(c.LowCutV, c.InputLowV)+clear && (c.InputHighV == 0 || volts < c.InputHighV-clear)
	case device.CutLow:
		return volts < max(c.LowCutV, c.RestartV)-clear
	}
	return false
}

func (r *drive) relaysStay(volts, clear float64) bool {
	for i := range r.a.Relays {
		d := r.a.Relays[i].Device
		if r.held[i].any() || r.a.Engine.State(r.a.Relays[i].Part) != device.Quiet {
			return false
		}
		if d.LowV > 0 && volts < d.LowV+clear || d.HighV > 0 && volts > d.HighV-clear {
			return false
		}
	}
	return true
}

// brisk is stretch for a brisk year.
func (r *drive) brisk(m int) (n int, each float64) {
	switch {
	case m%hourMinutes == 0 && r.dark(m, hourMinutes) && r.settled(m, hourMinutes):
		return hourMinutes, 60 * hourMinutes
	case m%longMinutes == 0 && r.heaterStays(longMinutes) && r.nothingTrips(m, longMinutes):
		return longMinutes, longest
	case m%someMinutes == 0 && r.nothingTrips(m, someMinutes):
		return someMinutes, longest
	}
	return 1, 60
}

// dark reports whether panels give nothing at both ends of some minutes.
func (r *drive) dark(m, n int) bool {
	for i := range r.offers {
		if r.offers[i][m] > 0 || r.offers[i][m+n-1] > 0 {
			return false
		}
	}
	return true
}

// nothingTrips reports whether in the next minutes no load is cut off and no relay
// opens. Chargers and heater may do as they do.
func (r *drive) nothingTrips(m, n int) bool {
	if r.books.cutOff() || r.driving(m) != r.driving(m+n-1) {
		return false
	}
	var give reached
	for i := range r.offers {
		w := reach(r.offers[i][m : m+n])
		give.low, give.high = give.low+w.low, give.high+w.high
	}
	volts := r.a.Bank.Volts()
	clear := r.clear(m, n, give, volts)
	return r.consumersStay(m, n, volts, clear) && r.relaysStay(volts, clear)
}
