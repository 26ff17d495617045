package engine

// Books are the energies on the bus since the run began:
//
//	SourceWh = LoadWh + CableWh + BankWh
type Books struct {
	SourceWh float64 // given by sources at their terminals
	LoadWh   float64 // taken by loads, with the loss of their own cables
	CableWh  float64 // lost in the main cable and the cables of sources
	BankWh   float64 // net into the bank's terminals
}

// Books returns the energies on the bus, each summed from its own currents and
// voltages.
func (e *Engine) Books() Books {
	return Books{e.books.SourceWh / 3600, e.books.LoadWh / 3600, e.books.CableWh / 3600, e.books.BankWh / 3600}
}

// account enters a step at its mean voltages, and shows each part its own.
func (e *Engine) account(dt float64) {
	n, b := &e.net, &e.books
	bankV := e.Bank.MeanVolts()
	busV := n.busV
	if !e.open[BankBranch] {
		busV = bankV + n.main*n.through
		b.CableWh += n.main * n.through * n.through * dt
	}
	b.BankWh += e.Bank.Amps() * bankV * dt
	for i := range n.feeds {
		f := &n.feeds[i]
		p := &e.parts[f.part]
		given := f.amps * (busV + f.amps*f.ohm) * dt
		p.amps, p.volts = f.amps, n.busV+f.amps*f.ohm
		p.joules += given
		b.SourceWh += given
		b.CableWh += f.amps * f.amps * f.ohm * dt
	}
	for i := range e.parts {
		e.accountPart(&e.parts[i], busV, bankV, dt)
	}
}

// accountPart shows a part the voltage at its terminals, and books what a load
// took.
func (e *Engine) accountPart(p *part, busV, bankV, dt float64) {
	n := &e.net
	if p.role == Source {
		if p.amps == 0 {
			p.volts = e.idleV(p)
		}
		return
	}
	end, mean := n.busV, busV
	if p.bankSide {
		end, mean = n.bankV, bankV
	} else if p.role == Load && e.open[LoadBranch] {
		end, mean = 0, 0
	}
	if p.port.LoadW == 0 && p.port.LoadA == 0 {
		p.amps, p.volts = 0, end
		return
	}
	own := draw{p.port.LoadW + p.amps*p.amps*p.ohm, p.port.LoadA}
	p.amps, _ = own.at(end, n.floor)
	p.volts = end - p.amps*p.ohm
	taken := p.amps * mean * dt
	p.joules += taken
	e.books.LoadWh += taken
}

// idleV is the voltage at a source that gives nothing: that of the bus, or its
// own when its contactor is open.
func (e *Engine) idleV(p *part) float64 {
	if e.open[ChargeBranch] && p.port.MaxA > 0 {
		return p.port.SetV
	}
	return e.net.busV
}
