package device

// Load draws a constant power and a constant current while it has voltage.
type Load struct{ W, A float64 }

// Step implements Device.
func (l *Load) Step(_ float64, s *Sense, p *Port) {
	if s.Stop {
		p.State = Stopped
		return
	}
	p.State, p.LoadW, p.LoadA = On, l.W, l.A
}

// Converter feeds other circuits from the bus: a dc converter, or the common
// part of an inverter. It cuts off on low voltage and comes back above RestartV;
// outside the input range of its hardware it stops at once.
type Converter struct {
	RatedW     float64 // it gives no more; 0 is no bound
	Efficiency float64 // output over input, beside the idle draw; 0 counts as 1
	IdleW      float64
	LowCutV    float64 // 0 is none
	LowDelayS  float64
	RestartV   float64 // 0 is the cut itself
	HighCutV   float64 // 0 is none
	HighBackV  float64 // 0 is the cut itself
	InputLowV  float64 // hardware
	InputHighV float64 // 0 is no bound
	Gain       float64 // error of its thresholds, as a share

	DemandW    float64 // what its loads ask for, set from outside
	DeliveredW float64 // what they get, set by Step

	state State
	low   hold
}

// Step implements Device.
func (c *Converter) Step(_ float64, s *Sense, p *Port) {
	p.State = c.judge(s)
	c.DeliveredW = 0
	if p.State != On {
		return
	}
	c.DeliveredW = c.DemandW
	if c.RatedW > 0 {
		c.DeliveredW = min(c.DemandW, c.RatedW)
	}
	p.LoadW = c.IdleW + c.DeliveredW/or(c.Efficiency, 1)
}

func (c *Converter) judge(s *Sense) State {
	volts := reading(s.OwnV, c.Gain)
	cut := c.low.lasted(volts < c.LowCutV, c.LowDelayS, s.Time)
	switch {
	case cut || s.OwnV < c.InputLowV || s.OwnV <= 0:
		c.state = CutLow
	case c.HighCutV > 0 && volts > c.HighCutV || c.InputHighV > 0 && s.OwnV > c.InputHighV:
		c.state = CutHigh
	case c.state == Idle || c.back(volts):
		c.state = On
	}
	if s.Stop {
		return Stopped
	}
	return c.state
}

// back reports whether the voltage is back where it starts again.
func (c *Converter) back(volts float64) bool {
	switch c.state {
	case CutLow:
		return volts >= or(c.RestartV, c.LowCutV)
	case CutHigh:
		return volts <= or(c.HighBackV, or(c.HighCutV, c.InputHighV))
	}
	return true
}

// Inverter is a converter that makes mains: it carries more than its rated power
// for a while, then trips on overload and tries again later.
type Inverter struct {
	Converter
	SurgeW float64 // the most for a short time; 0 is the rated power
	SurgeS float64 // how long
	RetryS float64 // from an overload to the next try

	over, off hold
	tripped   bool
}

// Step implements Device.
func (v *Inverter) Step(_ float64, s *Sense, p *Port) {
	p.State = v.judge(s)
	v.DeliveredW = 0
	if p.State != On {
		v.over.on = false
		return
	}
	if v.overloaded(s.Time) {
		p.State = Overloaded
		return
	}
	v.DeliveredW = v.DemandW
	p.LoadW = v.IdleW + v.DeliveredW/or(v.Efficiency, 1)
}

func (v *Inverter) overloaded(now float64) bool {
	if v.off.seconds(v.tripped, now) >= v.RetryS {
		v.tripped, v.off.on = false, false
	}
	if v.tripped || v.RatedW == 0 {
		return v.tripped
	}
	long := v.over.lasted(v.DemandW > v.RatedW, v.SurgeS, now)
	if long && v.DemandW > v.RatedW || v.DemandW > max(v.RatedW, v.SurgeW) {
		v.tripped = true
		v.over.on = false
		v.off.seconds(true, now)
	}
	return v.tripped
}

// Heater is a pad with its thermostat: on below OnC, off above OffC.
type Heater struct {
	PowerW float64
	RatedV float64 // voltage PowerW holds at, as of a plain resistor; 0 draws PowerW at any voltage
	OnC    float64
	OffC   float64
	Probe  Probe
	ErrorK float64 // of its thermometer
	Stray  float64 // share of its heat that misses the bank

	on bool
}

// Step implements Device.
func (h *Heater) Step(_ float64, s *Sense, p *Port) {
	tempC, ok := h.Probe.Read(s)
	tempC += h.ErrorK
	switch {
	case !ok || tempC >= h.OffC:
		h.on = false
	case tempC < h.OnC:
		h.on = true
	}
	p.State = Off
	switch {
	case s.Stop:
		p.State = Stopped
	case h.on:
		p.State = On
		p.LoadW = h.watts(s.OwnV)
		p.HeatW = p.LoadW * (1 - h.Stray)
	}
}

func (h *Heater) watts(volts float64) float64 {
	if h.RatedV == 0 {
		return h.PowerW
	}
	share := volts / h.RatedV
	return h.PowerW * share * share
}
