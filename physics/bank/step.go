package bank

// Thevenin returns the terminal voltage at the end of a step of dt seconds as a
// straight line in its current: volts + ohm·I. It holds while no group crosses a
// bend of its rest-voltage curve; Try tells by how much it does not.
func (b *Bank) Thevenin(dt float64) (volts, ohm float64) {
	b.prepare(dt)
	volts, ohm = b.rest, b.ohm+b.soft
	for k := range b.branches {
		r := &b.branches[k]
		volts += r.slow * r.keep * r.j
		ohm += r.slow * r.turn
	}
	return volts, ohm
}

// Step moves the bank on by dt seconds (> 0) at a current (A, positive charges)
// with the surroundings at ambientC and heaterW of heat put into it.
func (b *Bank) Step(amps, dt, ambientC, heaterW float64) {
	b.Try(amps, dt)
	b.Take(ambientC, heaterW)
}

// Try works out a step without taking it: the terminal voltage (V) at its end,
// and how that rises with the current (Ω) near there.
func (b *Bank) Try(amps, dt float64) (volts, ohm float64) {
	b.prepare(dt)
	volts, ohm = b.ohm*amps, b.ohm
	for k := range b.branches {
		r := &b.branches[k]
		r.j1 = r.j*r.keep + amps*r.turn
		volts += r.slow * r.j1
		ohm += r.slow * r.turn
	}
	rest, soft := b.tryGroups(amps)
	b.trial = trial{amps: amps, rest: rest, soft: soft, end: volts + rest}
	return volts + rest, ohm + soft
}

func (b *Bank) tryGroups(amps float64) (rest, soft float64) {
	table, groups := b.table, b.groups
	for i := range groups {
		g := &groups[i]
		soc := g.soc + (amps-g.leak)*g.perAmp
		l := table.restAt(soc)
		half := 0.5 * l.slope * soc
		g.soc1 = soc
		g.rest1 = l.at + (half + half)
		g.sum1 = l.sum + soc*(l.at+half)
		rest += g.rest1
		soft += l.slope * g.perAmp
	}
	return rest, soft
}

// Take takes the step tried last.
func (b *Bank) Take(ambientC, heaterW float64) {
	t := &b.trial
	slow, heat := b.relax(t.amps)
	leak := 0.0
	if b.leaky {
		leak = b.leak()
	}
	stored := b.takeGroups(t.amps)
	b.rest, b.soft, b.end, b.amps = t.rest, t.soft, t.end, t.amps
	b.book(stored, slow, heat, leak)
	b.tally.heater += heaterW * b.dt
	b.heaterJ += heaterW * b.dt
	b.waiting += (heat + leak + heaterW) * b.dt
	b.waited += b.dt
	if b.waited >= waitS || b.waiting >= b.enough || b.waiting <= -b.enough {
		b.conduct(ambientC)
	}
}
