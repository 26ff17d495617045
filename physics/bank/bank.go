package bank

// Bank is groups in series with their state. Build it with New.
type Bank struct {
	table     *Table
	groups    []group
	branches  []branch
	linksOhm  float64
	neighbour float64 // W/K between two groups

	volts, temps, socs []float64 // by group; temps holds one more, a mirror of the last
	low, high          float64   // lowest and highest group voltage
	cold, hot          float64   // °C

	dt    float64 // the step the cached figures hold for
	dirty bool    // a parameter changed since they were made
	leaky bool

	ohm  float64 // fast resistance and links
	rest float64 // sum of rest voltages
	soft float64 // rise of the rest voltage over a step for each ampere
	end  float64 // terminal voltage
	mean float64 // mean terminal voltage of the last step
	amps float64 // of the last step

	waited   float64 // s since the temperatures were brought up to date
	waiting  float64 // J made since
	heaterJ  float64 // the heater's part of it
	enough   float64 // J that do not wait
	quickest float64 // fastest change of a temperature, 1/s

	trial trial
	tally tally
}

// trial is the end of a step tried and not yet taken.
type trial struct{ amps, rest, soft, end float64 }

// group is one group's parameters, its state, and what is cached of both. It is
// one record rather than a slice for each value: a step touches nearly all of a
// group, and records were measured to step a sixth faster than slices.
type group struct {
	capacity       float64 // A·s
	fast25, slow25 float64 // Ω at 25 °C
	leak           float64 // A
	warmth         float64 // J/K
	loss           float64 // W/K to the surroundings
	share          float64 // of the heater
	branch         int     // which slow branch: groups of one time constant share it

	soc       float64
	rest, sum float64 // rest voltage and its integral, at soc
	at        float64 // °C the resistances hold for
	fast      float64 // Ω
	slow      float64 // Ω

	perAmp   float64 // change of soc over the step for each ampere
	perJoule float64 // K for each J
	heat     float64 // J that wait to warm it
	leakW    float64 // of the last step

	soc1, rest1, sum1 float64 // end of the step tried
}

// branch is the slow branch of all groups with one time constant. In series they
// carry the same current, so they relax as one.
type branch struct {
	tau          float64 // s
	j            float64 // A through the slow resistance
	j1           float64 // end of the step tried
	square       float64 // mean of j² over the step
	slow         float64 // Ω, of its groups together
	keep, turn   float64 // e^(−dt/τ) and 1 − that
	mean1, mean2 float64 // mean over the step of e^(−t/τ) and of its square
}

// Groups returns the number of groups in series.
func (b *Bank) Groups() int { return len(b.groups) }

// Voltages returns the voltage (V) of each group at the end of the last step,
// negative end first. The slice is the bank's own and changes with each step.
func (b *Bank) Voltages() []float64 { return b.volts }

// Temperatures returns the temperature (°C) of each group; the bank's own slice.
func (b *Bank) Temperatures() []float64 { return b.temps[:len(b.groups)] }

// SoCs returns the state of charge (fraction) of each group; the bank's own slice.
func (b *Bank) SoCs() []float64 { return b.socs }

// Span returns the lowest and highest group voltage (V).
func (b *Bank) Span() (low, high float64) { return b.low, b.high }

// Warmth returns the lowest and highest group temperature (°C).
func (b *Bank) Warmth() (cold, hot float64) { return b.cold, b.hot }

// Volts returns the terminal voltage (V) at the end of the last step.
func (b *Bank) Volts() float64 { return b.end }

// MeanVolts returns the mean terminal voltage (V) over the last step.
func (b *Bank) MeanVolts() float64 { return b.mean }

// Amps returns the current (A) of the last step, positive charging.
func (b *Bank) Amps() float64 { return b.amps }

// CapacityAh returns a group's capacity.
func (b *Bank) CapacityAh(i int) float64 { return b.groups[i].capacity / 3600 }

// RestVolts returns the terminal voltage (V) the bank would settle at.
func (b *Bank) RestVolts() float64 { return b.rest }

// SetLeak sets a group's leak (A, positive drains).
func (b *Bank) SetLeak(i int, amps float64) {
	b.groups[i].leak = amps
	b.dirty = true
}

// SetCapacity sets a group's capacity (Ah, > 0) at unchanged state of charge; the
// energy it stands for is not booked.
func (b *Bank) SetCapacity(i int, ah float64) {
	g := &b.groups[i]
	b.tally.stored += (ah*3600 - g.capacity) * g.sum
	g.capacity = ah * 3600
	b.dirty = true
}

// SetResistance sets a group's fast and slow resistance (Ω at 25 °C). An opened
// link is a fast resistance of a megohm.
func (b *Bank) SetResistance(i int, fast, slow float64) {
	b.groups[i].fast25, b.groups[i].slow25 = fast, slow
	b.tally.shift += b.warm()
	b.dirty = true
}

// Resistance returns a group's fast and slow resistance (Ω at 25 °C).
func (b *Bank) Resistance(i int) (fast, slow float64) { return b.groups[i].fast25, b.groups[i].slow25 }

// Reset puts every group at rest at a temperature (°C), with the state of charge
// given by group, or unchanged when soc is nil. The books start again.
func (b *Bank) Reset(soc []float64, tempC float64) {
	b.rest = 0
	for i := range b.groups {
		g := &b.groups[i]
		if soc != nil {
			g.soc = soc[i]
		}
		l := b.table.restAt(g.soc)
		g.rest, g.sum, g.heat = l.value(g.soc), l.integral(g.soc), 0
		b.rest += g.rest
		b.volts[i], b.temps[i], b.socs[i] = g.rest, tempC, g.soc
	}
	for k := range b.branches {
		b.branches[k].j = 0
	}
	b.amps, b.end, b.mean = 0, b.rest, b.rest
	b.waited, b.waiting, b.heaterJ = 0, 0, 0
	b.cold, b.hot = tempC, tempC
	b.low, b.high = span(b.volts)
	b.warm()
	b.dirty = true
	b.OpenBooks()
}

// warm sets the resistances to the present temperatures and returns the energy
// (J) that the slow branches gained by it.
func (b *Bank) warm() (shift float64) {
	for k := range b.branches {
		b.branches[k].slow = 0
	}
	b.ohm = b.linksOhm
	for i := range b.groups {
		g := &b.groups[i]
		k := &b.branches[g.branch]
		before := g.slow
		g.at = b.temps[i]
		f := b.table.factorAt(g.at)
		g.fast, g.slow = g.fast25*f, g.slow25*f
		b.ohm += g.fast
		k.slow += g.slow
		shift += 0.5 * k.tau * k.j * k.j * (g.slow - before)
	}
	return shift
}

func span(x []float64) (low, high float64) {
	low, high = x[0], x[0]
	for _, v := range x {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// Clone returns an independent copy in the same state.
func (b *Bank) Clone() *Bank {
	c := *b
	c.groups = append([]group(nil), b.groups...)
	c.branches = append([]branch(nil), b.branches...)
	c.volts = append([]float64(nil), b.volts...)
	c.temps = append([]float64(nil), b.temps...)
	c.socs = append([]float64(nil), b.socs...)
	return &c
}
