package bank

import "math"

// prepare caches what depends on the step length and the parameters.
func (b *Bank) prepare(dt float64) {
	if dt == b.dt && !b.dirty {
		return
	}
	b.dt, b.dirty, b.leaky = dt, false, false
	b.enough, b.quickest = 0, 0
	b.soft = 0
	for i := range b.groups {
		g := &b.groups[i]
		g.perAmp = dt / g.capacity
		g.perJoule = 1 / g.warmth
		b.enough += waitK * g.warmth
		b.quickest = max(b.quickest, (g.loss+4*b.neighbour)/g.warmth)
		g.leakW = 0
		b.leaky = b.leaky || g.leak != 0
		b.soft += b.table.restAt(g.soc).slope * g.perAmp
	}
	for k := range b.branches {
		b.branches[k].prepare(dt)
	}
}

func (r *branch) prepare(dt float64) {
	x := dt / r.tau
	r.keep, r.turn = math.Exp(-x), -math.Expm1(-x)
	r.mean1 = r.turn / x
	r.mean2 = -math.Expm1(-2*x) / (2 * x)
}
