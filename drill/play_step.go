package drill

import (
	"math"

	"ampstead/device"
)

// Steps. A step is as long as nothing of note can happen in it unseen:
//
//   - no cell may move further than a quarter of the way to the nearest voltage
//     at which any device acts or harm begins, or than leastV when it is there;
//   - the bank may not warm or cool by more than a third of the way to the
//     nearest temperature that matters, or than leastK;
//   - after anything has changed (a device, the demand, a fault that strikes)
//     steps are a second, and grow with the time since by a fifth of it, so that
//     delays are kept to a fifth of their length. A device that keeps going back
//     and forth loses its say in this after a while;
//   - while a source is about to equalise, which lifts its voltage at a stroke,
//     no longer than equaliseStep;
//   - never longer than the scene's longest step nor past the next change of
//     demand, never shorter than a second.
//
// Lengths are powers of two seconds where nothing else decides, for the bank
// prepares anew for each length it has not just used.
const (
	leastStep    = 1.0
	dayStep      = 128.0
	storageStep  = 86400.0
	equaliseStep = 16.0
	leastV       = 1e-3
	leastK       = 0.25
	growth       = 0.2
	bandV        = 0.005 // a bank's threshold is taken for this near any cell's mean
	mostSay      = 20    // changes of one device that shorten steps
)

// pace finds the length of each step.
type pace struct {
	since     float64   // when something last changed
	volts     []float64 // of a cell, at which something happens
	temps     []float64
	low, high float64 // of the cells, before the last step
	rate      float64 // V/s of the last step
	perK      float64 // K/s by a W
	said      []uint8 // by part: how often it has changed, up to mostSay
}

func (p *pace) event(now float64) { p.since = now }

// change is an event of a device.
func (p *pace) change(part int, now float64) {
	if p.said[part] < mostSay {
		p.said[part]++
		p.since = now
	}
}

// begin gathers all thresholds, as the faults left them.
func (p *pace) begin(t *turn) {
	s := t.e.Sense()
	p.low, p.high = s.LowV, s.HighV
	p.perK = 1 / t.a.HeatJPerK
	n := float64(t.p.rig.Bank.Series)
	w, c := &t.p.fit.Window, t.p.fit.Kind
	p.said = make([]uint8, len(t.p.parts))
	p.volts = append(make([]float64, 0, 32), w.CellLowV, w.CellHighV)
	p.temps = append(make([]float64, 0, 16), c.ChargeMinC.Value, c.HarmC.Value)
	for i := range t.a.Chargers {
		d := t.a.Chargers[i].Device
		p.bank(n, 1+d.Gain, d.AbsorptionV, d.FloatV, d.EqualiseV, d.RestartV)
		if d.FrostLock {
			p.temps = append(p.temps, d.FrostC, d.FrostC+d.FrostBackK)
		}
	}
	for i := range t.a.Converters {
		p.converter(n, t.a.Converters[i].Device)
	}
	for i := range t.a.Inverters {
		p.converter(n, &t.a.Inverters[i].Device.Converter)
	}
	for i := range t.a.Guards {
		p.guard(n, t.a.Guards[i].Device)
	}
	if d := t.a.Pad; d != nil {
		p.temps = append(p.temps, d.OnC, d.OffC)
	}
}

// bank adds thresholds on the whole bank.
func (p *pace) bank(series, gain float64, volts ...float64) {
	for _, v := range volts {
		if v > 0 {
			p.volts = append(p.volts, v*gain/series)
		}
	}
}

func (p *pace) converter(n float64, d *device.Converter) {
	p.bank(n, 1+d.Gain, d.LowCutV, d.RestartV, d.HighCutV)
	p.bank(n, 1, d.InputLowV, d.InputHighV)
}

func (p *pace) guard(n float64, d device.Device) {
	switch d := d.(type) {
	case *device.Relay:
		p.bank(n, 1+d.Gain, d.HighV, d.HighResetV, d.LowV, d.LowResetV)
	case *device.Meter:
		p.bank(1, 1, d.HighV, d.LowV)
		if d.HotC > 0 {
			p.temps = append(p.temps, d.HotC)
		}
	case *device.Cutout:
		if d.Below {
			p.temps = append(p.temps, d.BelowC, d.BelowC+d.BackK)
		}
		if d.Above {
			p.temps = append(p.temps, d.AboveC, d.AboveC-d.BackK)
		}
	}
}

// next returns the length of the coming step.
func (p *pace) next(t *turn) float64 {
	s := t.e.Sense()
	least, fine := leastStep, max(1, t.p.finer)
	dt := min(t.stage.longest, growth*(s.Time-p.since))
	if t.equalising() {
		dt = min(dt, equaliseStep)
	}
	if p.rate > 0 {
		dt = min(dt, max(leastV, p.roomV(s.LowV, s.HighV)/4)/p.rate)
	}
	if heating := p.heating(t, &s); heating > 0 {
		dt = min(dt, max(leastK, p.roomK(s.ColdC, s.HotC)/3)/heating)
	}
	_, power := math.Frexp(max(dt, least))
	dt = math.Ldexp(0.5, power) / fine
	return min(dt, t.untilChange(s.Time))
}

// note takes the rate of a step of dt seconds that has been taken.
func (p *pace) note(s *device.Sense, dt float64) {
	p.rate = max(math.Abs(s.LowV-p.low), math.Abs(s.HighV-p.high)) / dt
	p.low, p.high = s.LowV, s.HighV
}

// roomV is how far the nearest threshold is from any cell.
func (p *pace) roomV(low, high float64) float64 { return room(p.volts, low-bandV, high+bandV) }

func (p *pace) roomK(cold, hot float64) float64 { return room(p.temps, cold, hot) }

func room(thresholds []float64, low, high float64) float64 {
	least := math.Inf(1)
	for _, v := range thresholds {
		least = min(least, max(low-v, v-high, 0))
	}
	return least
}

// equalising reports whether a source is about to lift its voltage.
func (t *turn) equalising() bool {
	for i := range t.a.Chargers {
		if d := t.a.Chargers[i].Device; d.EqualiseV > d.AbsorptionV && d.Stage() == device.Absorption {
			return true
		}
	}
	return false
}

// heating is the most by which the bank's temperature can move, K/s.
func (p *pace) heating(t *turn, s *device.Sense) float64 {
	ohmic := s.BankA * s.BankA * 2 * t.p.fit.Cell.Ohm
	away := max(math.Abs(s.HotC-s.SurroundingC), math.Abs(s.ColdC-s.SurroundingC))
	pad := 0.0
	if t.a.Pad != nil && t.e.State(t.a.Heater) == device.On {
		pad = t.a.Pad.PowerW
	}
	return p.perK * (pad + ohmic + t.a.LossWPerK*away)
}

// untilChange is the time to the next change of demand or to the end.
func (t *turn) untilChange(now float64) float64 {
	at := t.stage.seconds
	if k := t.beat + 1; k < len(t.stage.beats) {
		at = min(at, t.stage.beats[k].at)
	}
	return at - now
}
