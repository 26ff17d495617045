package device

import "math"

// Relay is a voltage relay on the whole bank. It stops what it drives when the
// voltage has been outside its thresholds for the delay, and lets go when the
// voltage is back past its reset.
type Relay struct {
	HighV, HighResetV float64 // 0 is no high trip; a reset of 0 is the threshold itself
	LowV, LowResetV   float64
	HighDelayS        float64
	LowDelayS         float64
	Latching          bool    // once tripped it stays, until Reset
	AtBus             bool    // senses at the bus bars instead of the bank
	Gain              float64 // error of its thresholds, as a share
	ResolutionV       float64 // finest step it reads; 0 reads without steps

	state     State
	high, low hold
}

// Reset puts a latched relay back.
func (r *Relay) Reset() { r.state = Quiet }

// Step implements Device.
func (r *Relay) Step(_ float64, s *Sense, p *Port) {
	volts := s.BankV
	if r.AtBus {
		volts = s.BusV
	}
	r.judge(steps(reading(volts, r.Gain), r.ResolutionV), s.Time)
	p.State = r.state
	p.Stop = r.state != Quiet
}

func (r *Relay) judge(volts, now float64) {
	high := r.high.lasted(r.HighV > 0 && volts > r.HighV, r.HighDelayS, now)
	low := r.low.lasted(r.LowV > 0 && volts < r.LowV, r.LowDelayS, now)
	switch {
	case high:
		r.state = TrippedHigh
	case low:
		r.state = TrippedLow
	case r.state == Idle || !r.Latching && r.back(volts):
		r.state = Quiet
	}
}

// back reports whether the voltage is back where the relay lets go.
func (r *Relay) back(volts float64) bool {
	switch r.state {
	case TrippedHigh:
		return volts <= or(r.HighResetV, r.HighV)
	case TrippedLow:
		return volts >= or(r.LowResetV, r.LowV)
	}
	return true
}

func or(v, instead float64) float64 {
	if v == 0 {
		return instead
	}
	return v
}

// steps rounds a reading to the finest step a device shows.
func steps(v, step float64) float64 {
	if step == 0 {
		return v
	}
	return math.RoundToEven(v/step) * step
}

// Meter is a cell meter: it reads every group and warns. Its output stops what
// it drives on the alarms it is set to act on.
type Meter struct {
	HighV, LowV float64 // of a group; 0 is off
	SpreadV     float64 // between highest and lowest; 0 is off
	HotC        float64 // 0 is off
	BackV       float64 // a voltage alarm ends this far inside its threshold
	DelayS      float64 // a state of alarm lasts so long before the output acts
	Acts        Alarm   // alarms on which it stops what it drives
	Probe       Probe   // for HotC
	ErrorV      float64 // of every reading
	ErrorsV     []float64
	ResolutionV float64

	alarm Alarm
	acts  hold
}

// Step implements Device.
func (m *Meter) Step(_ float64, s *Sense, p *Port) {
	low, high := m.read(s)
	m.alarm = m.voltage(low, high)
	if tempC, ok := m.Probe.Read(s); ok && m.HotC > 0 && tempC > m.HotC {
		m.alarm |= AlarmHot
	}
	p.Alarm = m.alarm
	p.State = Quiet
	if m.alarm != 0 {
		p.State = Alarming
	}
	p.Stop = m.acts.lasted(m.alarm&m.Acts != 0, m.DelayS, s.Time)
}

// read returns the lowest and highest reading, each group with its own error
// where errors by group are given.
func (m *Meter) read(s *Sense) (low, high float64) {
	low, high = s.LowV, s.HighV
	if len(m.ErrorsV) == len(s.GroupV) && len(m.ErrorsV) > 0 {
		low, high = math.Inf(1), math.Inf(-1)
		for i, v := range s.GroupV {
			v += m.ErrorsV[i]
			low, high = min(low, v), max(high, v)
		}
	}
	return steps(low+m.ErrorV, m.ResolutionV), steps(high+m.ErrorV, m.ResolutionV)
}

func (m *Meter) voltage(low, high float64) (a Alarm) {
	if m.HighV > 0 && high > m.HighV-m.back(AlarmHigh) {
		a |= AlarmHigh
	}
	if m.LowV > 0 && low < m.LowV+m.back(AlarmLow) {
		a |= AlarmLow
	}
	if m.SpreadV > 0 && high-low > m.SpreadV {
		a |= AlarmSpread
	}
	return a
}

// back returns how far inside its threshold a sounding alarm ends.
func (m *Meter) back(a Alarm) float64 {
	if m.alarm&a != 0 {
		return m.BackV
	}
	return 0
}

// Cutout is a switch worked by temperature alone: it stops what it drives below
// or above its limits, and lets go once the temperature is back by BackK.
type Cutout struct {
	Below, Above bool    // which limits it has
	BelowC       float64 // °C
	AboveC       float64
	BackK        float64
	Probe        Probe
	ErrorK       float64 // of its thermometer

	state State
}

// Step implements Device.
func (c *Cutout) Step(_ float64, s *Sense, p *Port) {
	tempC, ok := c.Probe.Read(s)
	if ok {
		c.judge(tempC + c.ErrorK)
	}
	p.State = c.state
	p.Stop = c.state == TooCold || c.state == TooHot
}

func (c *Cutout) judge(tempC float64) {
	below, above := c.BelowC, c.AboveC
	if c.state == TooCold {
		below += c.BackK
	}
	if c.state == TooHot {
		above -= c.BackK
	}
	switch {
	case c.Below && tempC < below:
		c.state = TooCold
	case c.Above && tempC > above:
		c.state = TooHot
	default:
		c.state = Quiet
	}
}

// Contactor is a switch held closed by its coil. It opens OpenS after it is told
// to, or when the voltage at its coil falls below HoldV.
type Contactor struct {
	OpenS  float64 // time to open
	CloseS float64 // time to close again
	CoilW  float64 // to hold it closed
	HoldV  float64 // the coil lets go below; 0 is never

	open            bool
	telling, asking hold
}

// Open reports whether it is open.
func (c *Contactor) Open() bool { return c.open }

// Step implements Device.
func (c *Contactor) Step(_ float64, s *Sense, p *Port) {
	tell := s.Stop || s.OwnV < c.HoldV
	opens := c.telling.lasted(tell, c.OpenS, s.Time)
	closes := c.asking.lasted(!tell, c.CloseS, s.Time)
	if opens {
		c.open = true
	}
	if closes {
		c.open = false
	}
	p.Stop, p.State = c.open, Open
	if !c.open {
		p.State, p.LoadW = Closed, c.CoilW
	}
}
