package device

// Charger is a charge source: solar controller, mains charger, alternator or
// converter charger. It gives constant current in bulk until the voltage is
// reached, holds it in absorption until the current has fallen or the time is
// up, then floats or stops, and starts again when the voltage has fallen.
type Charger struct {
	LimitA      float64 // most current
	AbsorptionV float64
	AbsorptionS float64 // longest time at that voltage; 0 is no limit
	TailA       float64 // absorption ends below this current; 0 is by time alone
	TailS       float64 // held for so long
	FloatV      float64 // 0 stops instead
	RestartV    float64 // a new charge begins below; 0 is never
	RestartS    float64 // held for so long
	NewEachDay  bool    // a new charge begins whenever its supply returns

	EqualiseV      float64 // 0 is never
	EqualiseS      float64 // duration
	EqualiseEveryS float64 // time from one to the next

	CompensationVPerK float64 // of every voltage, per kelvin above 25 °C
	FrostLock         bool
	FrostC            float64 // no charge below
	FrostBackK        float64 // and again this much above
	Probe             Probe   // for compensation and frost
	ProbeErrorK       float64

	AtBank   bool    // regulates at the bank's terminals, by sense wires
	CeilingV float64 // highest output while it does; 0 is a tenth above the set-point
	Gain     float64 // error of its voltage, as a share

	SupplyW float64 // power available to it, +Inf when it has no bound; nothing at 0
	SupplyA float64 // further bound on its output; 0 is none

	stage            State
	seen             float64 // when it was last stepped
	spent            float64 // s at the voltage of this stage
	sinceEqualise    float64
	tail, low        hold
	frozen, supplied bool
}

// atVoltage is how close to its target a charger counts as holding it.
const atVoltage = 5e-4

// Stage returns the stage of the charge.
func (c *Charger) Stage() State { return c.stage }

// Step implements Device.
func (c *Charger) Step(_ float64, s *Sense, p *Port) {
	elapsed := s.Time - c.seen
	c.seen = s.Time
	c.sinceEqualise += elapsed
	if p.State = c.blocked(s); p.State != Idle {
		c.tail.on, c.low.on = false, false
		return
	}
	volts := s.OwnV
	if c.AtBank {
		volts = s.BankV
	}
	c.advance(s, reading(volts, c.Gain), elapsed)
	p.State = c.stage
	if c.stage == Charged {
		return
	}
	c.output(s, p)
}

func (c *Charger) output(s *Sense, p *Port) {
	p.SetV = c.target(s) * (1 + c.Gain)
	p.MaxA = c.LimitA
	if c.SupplyA > 0 {
		p.MaxA = min(p.MaxA, c.SupplyA)
	}
	if c.SupplyW < unbounded {
		p.MaxW = c.SupplyW
	}
	p.AtBank, p.CeilingV = c.AtBank, c.CeilingV
	if c.CeilingV == 0 {
		p.CeilingV = 1.1 * p.SetV
	}
}

// unbounded is the power from which on a supply counts as without bound.
const unbounded = 1e9

// blocked returns why nothing comes out, or Idle.
func (c *Charger) blocked(s *Sense) State {
	supplied := c.SupplyW > 0
	if supplied && !c.supplied && (c.stage == Idle || c.NewEachDay) {
		c.begin(Bulk)
	}
	c.supplied = supplied
	switch {
	case !supplied:
		return Unsupplied
	case s.Stop:
		return Stopped
	case c.frosty(s):
		return FrostLocked
	}
	return Idle
}

func (c *Charger) frosty(s *Sense) bool {
	if !c.FrostLock {
		return false
	}
	tempC, ok := c.Probe.Read(s)
	if !ok {
		return false
	}
	tempC += c.ProbeErrorK
	if c.frozen {
		c.frozen = tempC < c.FrostC+c.FrostBackK
	} else {
		c.frozen = tempC < c.FrostC
	}
	return c.frozen
}

// target returns the voltage of the stage as the charger means it, compensated.
func (c *Charger) target(s *Sense) float64 {
	volts := c.AbsorptionV
	switch c.stage {
	case Float:
		volts = c.FloatV
	case Equalise:
		volts = c.EqualiseV
	}
	if c.CompensationVPerK == 0 {
		return volts
	}
	if tempC, ok := c.Probe.Read(s); ok {
		volts += c.CompensationVPerK * (tempC + c.ProbeErrorK - 25)
	}
	return volts
}

func (c *Charger) begin(stage State) {
	c.stage, c.spent = stage, 0
	c.tail.on, c.low.on = false, false
}

// advance moves from stage to stage by the voltage read and the time gone.
func (c *Charger) advance(s *Sense, volts, elapsed float64) {
	there := volts >= c.target(s)*(1-atVoltage)
	switch c.stage {
	case Bulk:
		if there {
			c.begin(Absorption)
		}
	case Absorption:
		if there {
			c.spent += elapsed
		}
		if c.absorbed(s, there) {
			c.afterAbsorption()
		}
	case Equalise:
		c.spent += elapsed
		if c.spent >= c.EqualiseS {
			c.sinceEqualise = 0
			c.rest()
		}
	case Float, Charged:
		if c.low.lasted(volts < c.RestartV, c.RestartS, s.Time) {
			c.begin(Bulk)
		}
	}
}

func (c *Charger) absorbed(s *Sense, there bool) bool {
	if c.AbsorptionS > 0 && c.spent >= c.AbsorptionS {
		return true
	}
	return c.TailA > 0 && c.tail.lasted(there && s.OwnA <= c.TailA, c.TailS, s.Time)
}

func (c *Charger) afterAbsorption() {
	if c.EqualiseV > 0 && c.sinceEqualise >= c.EqualiseEveryS {
		c.begin(Equalise)
		return
	}
	c.rest()
}

func (c *Charger) rest() {
	if c.FloatV > 0 {
		c.begin(Float)
		return
	}
	c.begin(Charged)
}
