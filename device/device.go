package device

// Device is anything that looks at the bank and the bus and acts on them.
// Step is called at the start of each step of dt seconds, with p all zero.
// Neither s nor p may be kept, and s not be written to: others read it too.
type Device interface {
	Step(dt float64, s *Sense, p *Port)
}

// Sense is what a device can see at the start of a step.
type Sense struct {
	Time  float64 // s since the run began
	BankV float64 // at the bank's terminals
	BusV  float64 // at the bus bars, behind the main cable and contactor
	BankA float64 // positive charges the bank
	OwnV  float64 // at the device's own terminals
	OwnA  float64 // its own current: given by a source, drawn by a load
	Stop  bool    // another device tells it to stop, or a contactor to open

	GroupV       []float64 // by group, negative end first
	GroupC       []float64 // °C
	LowV, HighV  float64   // lowest and highest of GroupV
	ColdC, HotC  float64   // lowest and highest of GroupC
	SurroundingC float64   // °C around the bank and the devices
}

// SetGroupV replaces the group voltages and their extremes, for a wrapper that
// alters what a cell meter sees.
func (s *Sense) SetGroupV(volts []float64) {
	s.GroupV = volts
	s.LowV, s.HighV = span(volts)
}

// SetGroupC replaces the group temperatures and their extremes.
func (s *Sense) SetGroupC(temps []float64) {
	s.GroupC = temps
	s.ColdC, s.HotC = span(temps)
}

func span(x []float64) (low, high float64) {
	if len(x) == 0 {
		return 0, 0
	}
	low, high = x[0], x[0]
	for _, v := range x[1:] {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// Port is all a device does during a step.
type Port struct {
	State State
	Alarm Alarm
	Stop  bool // a guard stops what it drives; a contactor is open

	// A source holds SetV at its sense point with up to MaxA and, if MaxW is
	// above zero, up to MaxW out of its own terminals.
	SetV, MaxA, MaxW float64
	AtBank           bool    // senses at the bank's terminals instead of its own
	CeilingV         float64 // highest voltage of its own terminals while it senses at the bank

	LoadW float64 // constant power it draws from the bus
	LoadA float64 // constant current it draws from the bus
	HeatW float64 // heat it puts into the bank
}

// Probe says where a device's thermometer sits. The zero Probe is none.
type Probe int

// Places of a thermometer besides a group.
const (
	NoProbe   Probe = 0
	AtOutside Probe = -1 // in the surroundings, as in the device's own case
	AtColdest Probe = -2 // the coldest of a thermometer on every group
	AtHottest Probe = -3 // the hottest of them
)

// AtGroup is a thermometer stuck to a group, 0 at the negative end.
func AtGroup(i int) Probe { return Probe(i + 1) }

// Read returns the temperature (°C) at the thermometer, or false when there is
// none.
func (p Probe) Read(s *Sense) (tempC float64, ok bool) {
	switch {
	case p == AtOutside:
		return s.SurroundingC, true
	case p == AtColdest:
		return s.ColdC, true
	case p == AtHottest:
		return s.HotC, true
	case p > 0 && int(p) <= len(s.GroupC):
		return s.GroupC[p-1], true
	}
	return 0, false
}

// hold measures how long a condition has held without a break.
type hold struct {
	since float64
	on    bool
}

// seconds returns how long cond has held at time now, or -1 when it does not.
func (h *hold) seconds(cond bool, now float64) float64 {
	if !cond {
		h.on = false
		return -1
	}
	if !h.on {
		h.on, h.since = true, now
	}
	return now - h.since
}

// lasted reports whether cond has held for at least delay seconds.
func (h *hold) lasted(cond bool, delay, now float64) bool {
	return h.seconds(cond, now) >= delay-1e-6
}

// reading is what a device with a gain error makes of a voltage: one whose gain
// is +1 % acts at 1 % more than its setting.
func reading(volts, gain float64) float64 {
	if gain == 0 {
		return volts
	}
	return volts / (1 + gain)
}
