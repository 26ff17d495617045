package bank

import "math"

// bend is the change of charge below which a step's mean rest voltage is that of
// its ends: the difference of two integrals would lose its digits.
const bend = 1e-6

// follow is by how much (K) a temperature may leave that of the resistances
// before they follow: at the coldest, 0.3 % of a resistance.
const follow = 0.05

// relax moves the slow branches on. It returns the mean voltage over them and
// the heat (W) made in all resistances of the groups, the means of the step.
func (b *Bank) relax(amps float64) (volts, heat float64) {
	square := amps * amps
	heat = (b.ohm - b.linksOhm) * square
	for k := range b.branches {
		r := &b.branches[k]
		away := r.j - amps
		r.square = square + away*(2*amps*r.mean1+away*r.mean2)
		volts += r.slow * (amps + away*r.mean1)
		heat += r.slow * r.square
		r.j = r.j1
	}
	return volts, heat
}

// leak returns the power (W) lost in all leaks, the mean of the step.
func (b *Bank) leak() (sum float64) {
	for i := range b.groups {
		g := &b.groups[i]
		rest := 0.5 * (g.rest + g.rest1)
		if d := g.soc1 - g.soc; math.Abs(d) > bend {
			rest = (g.sum1 - g.sum) / d
		}
		g.leakW = g.leak * rest
		sum += g.leakW
	}
	return sum
}

// Heat waits until this long (s) has passed or it would warm the whole bank by
// this much (K): temperatures change slowly, and most steps need not walk them.
const (
	waitS = 300
	waitK = 0.02
)

// takeGroups takes charge and voltage of every group and returns the energy (J)
// that went under the rest-voltage curve.
func (b *Bank) takeGroups(amps float64) (stored float64) {
	groups, branches := b.groups, b.branches
	volts, socs := b.volts[:len(groups)], b.socs[:len(groups)]
	dt, square, keep := b.dt, amps*amps, 1.0
	if b.waited == 0 {
		keep = 0
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i := range groups {
		g := &groups[i]
		k := &branches[g.branch]
		stored += g.capacity * (g.sum1 - g.sum)
		g.heat = keep*g.heat + dt*(square*g.fast+k.square*g.slow+g.leakW)
		v := g.rest1 + g.slow*k.j + g.fast*amps
		g.soc, g.rest, g.sum = g.soc1, g.rest1, g.sum1
		volts[i], socs[i] = v, g.soc1
		if v > high {
			high = v
		}
		if v < low {
			low = v
		}
	}
	b.low, b.high = low, high
	return stored
}

// conduct brings the temperatures up to date, in as many equal parts as keep the
// explicit rule stable, and lets the resistances follow.
func (b *Bank) conduct(ambientC float64) {
	parts := max(1, int(math.Ceil(b.waited*b.quickest)))
	part := 1 / float64(parts)
	stale := false
	for range parts {
		stale = b.conductOnce(ambientC, part) || stale
	}
	b.waited, b.waiting, b.heaterJ = 0, 0, 0
	if stale {
		b.tally.shift += b.warm()
	}
}

// conductOnce spends a part of the heat and time that wait.
func (b *Bank) conductOnce(ambientC, part float64) (stale bool) {
	groups := b.groups
	n := len(groups)
	seconds, heater := part*b.waited, part*b.heaterJ
	neighbour := seconds * b.neighbour
	temps := b.temps[:n+1]
	temps[n] = temps[n-1]
	before, lost := temps[0], 0.0
	cold, hot := math.Inf(1), math.Inf(-1)
	for i := range groups {
		g := &groups[i]
		t := temps[i]
		out := seconds * g.loss * (t - ambientC)
		lost += out
		t1 := t + (part*g.heat+heater*g.share-out+neighbour*((before-t)+(temps[i+1]-t)))*g.perJoule
		before, temps[i] = t, t1
		if t1 > hot {
			hot = t1
		}
		if t1 < cold {
			cold = t1
		}
		if d := t1 - g.at; d > follow || d < -follow {
			stale = true
		}
	}
	b.cold, b.hot = cold, hot
	b.tally.lost += lost
	return stale
}
