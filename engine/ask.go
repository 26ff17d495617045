package engine

import "ampstead/device"

// ask steps every device and gathers what they do: guards first, so that what
// they stop hears of it in the same step.
func (e *Engine) ask(dt float64) {
	n := &e.net
	n.feeds = n.feeds[:0]
	n.bus, n.bank = draw{}, draw{}
	e.open = [3]bool{BankBranch: e.blown}
	e.heat = 0
	stopped := uint64(0)
	s := &e.sense
	for i := range e.parts {
		p := &e.parts[i]
		s.OwnV, s.OwnA = p.volts, p.amps
		s.Stop = stopped>>i&1 != 0
		p.port = device.Port{}
		p.device.Step(dt, s, &p.port)
		switch p.role {
		case Guard:
			if p.port.Stop {
				stopped |= p.stops
			}
		case Switch:
			if p.port.Stop {
				e.open[p.opens] = true
			}
		case Source:
			e.feed(i, p)
		}
		if p.port.LoadW != 0 || p.port.LoadA != 0 {
			e.draw(p)
		}
		if p.port.State != p.state || p.port.Alarm != p.alarm {
			e.happened(i, p)
		}
	}
}

// feed puts a source on the bus.
func (e *Engine) feed(i int, p *part) {
	p.amps = 0
	if p.port.MaxA <= 0 || e.open[ChargeBranch] {
		return
	}
	f := feed{
		set: p.port.SetV, most: p.port.MaxA, watts: p.port.MaxW, ceiling: p.port.CeilingV,
		ohm: p.ohm, cable: p.cable, give: p.cable, atBank: p.port.AtBank, part: i,
	}
	if f.atBank {
		f.give = 1 / leastOhm
	}
	e.net.feeds = append(e.net.feeds, f)
}

// draw adds what a part takes from the bus, its cable's loss included.
func (e *Engine) draw(p *part) {
	if p.role == Source || !e.live(p) {
		p.port.LoadW, p.port.LoadA = 0, 0
		return
	}
	d := &e.net.bus
	if p.bankSide {
		d = &e.net.bank
	}
	d.watts += p.port.LoadW + p.amps*p.amps*p.ohm
	d.amps += p.port.LoadA
	e.heat += p.port.HeatW
}

// live reports whether a load is connected and its side of the contactor had
// voltage.
func (e *Engine) live(p *part) bool {
	if p.bankSide {
		return e.net.bankV > 0 && !e.blown
	}
	return !(p.role == Load && e.open[LoadBranch])
}

// heating returns the heat that goes into the bank: none from a dead bus.
func (e *Engine) heating() float64 {
	if e.net.busV < e.net.floor {
		return 0
	}
	return e.heat
}

func (e *Engine) happened(i int, p *part) {
	if e.Log != nil {
		s := &e.sense
		e.Log.add(Event{
			Time: s.Time, Part: i, Was: p.state, State: p.port.State, Alarm: p.port.Alarm,
			BankV: s.BankV, BusV: s.BusV, BankA: s.BankA, LowV: s.LowV, HighV: s.HighV,
		})
	}
	p.state, p.alarm = p.port.State, p.port.Alarm
}
