package travel

import "ampstead/device"

// hold is a relay that someone holds closed past its threshold.
type hold struct {
	low, high   bool
	lowV, highV float64 // its thresholds meanwhile
}

// worthClosing is the supply beyond what the heater takes from which on someone
// closes an empty bank's disconnect to charge it, W.
const worthClosing = 50.0

// byHand is the people on board: a disconnect that opened has no way back by
// itself when the bank is cut off from what would charge or draw on it. They hold
// it closed while an empty bank is charged, and when it opened on high voltage
// and something is wanted that nothing else supplies. Each time is counted.
func (r *drive) byHand() {
	for i := range r.a.Relays {
		relay := &r.a.Relays[i]
		if !relay.CutsBank {
			continue
		}
		h, d := &r.held[i], relay.Device
		watts := r.supplyNow()
		enough := watts > worthClosing+r.heaterW
		r.letGo(h, d, watts > 0, enough)
		switch r.a.Engine.State(relay.Part) {
		case device.TrippedLow:
			if enough && !h.low {
				h.low, h.lowV = true, d.LowV
				d.LowV = 0
				r.closed(d)
			}
		case device.TrippedHigh:
			if watts == 0 && !h.high && r.wanted() {
				h.high, h.highV = true, d.HighV
				d.HighV = 0
				r.closed(d)
			}
		}
	}
}

// letGo leaves a relay to itself again once it is past its reset, or the reason
// to hold it is gone.
func (r *drive) letGo(h *hold, d *device.Relay, supplied, enough bool) {
	volts := r.a.Bank.Volts()
	if h.low && (!enough || volts >= max(d.LowResetV, h.lowV) || r.a.Bank.Amps() < 0) {
		h.low, d.LowV = false, h.lowV
	}
	if h.high && (supplied || volts <= min(d.HighResetV, h.highV)) {
		h.high, d.HighV = false, h.highV
	}
}

func (r *drive) closed(d *device.Relay) {
	d.Reset()
	if r.counted {
		r.out.ClosedByHand++
	}
}

// supplyNow is what sources that may charge have to give, W.
func (r *drive) supplyNow() float64 {
	watts := 0.0
	for i := range r.a.Chargers {
		c := &r.a.Chargers[i]
		if c.Device.SupplyW > 0 && !r.books.frozen(i, r.a.Engine.State(c.Part)) {
			watts += c.Device.SupplyW
		}
	}
	return watts
}

// wanted reports whether an appliance asks for anything.
func (r *drive) wanted() bool {
	for i := range r.a.Converters {
		if r.a.Converters[i].Device.DemandW > 0 {
			return true
		}
	}
	for i := range r.a.Inverters {
		if r.a.Inverters[i].Device.DemandW > 0 {
			return true
		}
	}
	for i := range r.a.Direct {
		if r.a.Direct[i].Device.W > 0 {
			return true
		}
	}
	return false
}

func (h *hold) any() bool { return h.low || h.high }
