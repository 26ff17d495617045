package prove

import (
	"math"
	"math/bits"
	"sort"
)

// grain tells the resolution of the readings: the smallest change ever seen.
type grain struct{ amps, volts, groups finest }

type finest struct {
	last, least float64
	seen        bool
}

// sameReading is the change below which two readings are the same number
// written in another way.
const sameReading = 1e-9

func (f *finest) see(x float64) {
	d := math.Abs(x - f.last)
	if f.seen && d > sameReading && (f.least == 0 || d < f.least) {
		f.least = d
	}
	f.last, f.seen = x, true
}

// step is the resolution, 0 when nothing ever changed.
func (f *finest) step() float64 { return f.least }

func (g *grain) see(amps, volts float64, groups []float64) {
	g.amps.see(amps)
	g.volts.see(volts)
	if len(groups) > 0 && !math.IsNaN(groups[0]) {
		g.groups.see(groups[0])
	}
}

// counter compares the logger's own counter of charge with the integral,
// stretch by stretch between its resets and turns.
type counter struct {
	from, last   float64 // Ah of the counter at the start of the stretch and now
	fromAh       float64 // of the integral
	lastAh       float64
	most         float64
	island       int
	seen         bool
	theirs, ours float64 // Ah, stretches added up without sign
	stretches    int
}

func (c *counter) see(theirs, ours float64, island int) {
	if math.IsNaN(theirs) {
		return
	}
	if !c.seen || island != c.island || c.broken(theirs, ours) {
		c.finish()
		c.from, c.fromAh, c.island, c.seen = theirs, ours, island, true
	}
	c.last, c.lastAh = theirs, ours
	c.most = max(c.most, math.Abs(theirs))
}

// broken tells a reset, or a turn from charging to discharging.
func (c *counter) broken(theirs, ours float64) bool {
	moved := ours - c.lastAh
	reset := math.Abs(theirs) < math.Abs(c.last) && math.Abs(theirs-c.last) > 3*math.Abs(moved)+0.01*c.most
	turned := moved*(c.lastAh-c.fromAh) < 0
	return reset || turned
}

func (c *counter) finish() {
	if !c.seen || c.last == c.from {
		return
	}
	c.theirs += math.Abs(c.last - c.from)
	c.ours += math.Abs(c.lastAh - c.fromAh)
	c.stretches++
}

// sumOff is by how much the groups add up to more than the terminals show.
type sumOff struct {
	sum, rows      float64 // V and number of rows
	worst, worstAt float64 // V, s
}

func (o *sumOff) see(r *reading) {
	if len(r.groups) == 0 {
		return
	}
	d := -r.v
	for _, v := range r.groups {
		d += v
	}
	if math.IsNaN(d) {
		return
	}
	o.sum, o.rows = o.sum+d, o.rows+1
	if math.Abs(d) > math.Abs(o.worst) {
		o.worst, o.worstAt = d, r.t
	}
}

// and adds up two stretches.
func (o sumOff) and(other sumOff) sumOff {
	o.sum, o.rows = o.sum+other.sum, o.rows+other.rows
	if math.Abs(other.worst) > math.Abs(o.worst) {
		o.worst, o.worstAt = other.worst, other.worstAt
	}
	return o
}

func (o sumOff) mean() float64 { return o.sum / math.Max(o.rows, 1) }

// warmth follows every sensor of temperature.
type warmth struct {
	first, most []float64
	rows        int
}

func (w *warmth) see(temps []float64) {
	for len(w.first) < len(temps) {
		w.first, w.most = append(w.first, math.NaN()), append(w.most, math.NaN())
	}
	for k, c := range temps {
		if math.IsNaN(c) {
			continue
		}
		w.rows++
		if math.IsNaN(w.first[k]) {
			w.first[k], w.most[k] = c, c
		}
		w.most[k] = max(w.most[k], c)
	}
}

// rise is the largest rise of any sensor, K.
func (w *warmth) rise() (float64, bool) {
	if w.rows == 0 {
		return 0, false
	}
	rise := 0.0
	for k := range w.first {
		if d := w.most[k] - w.first[k]; d > rise {
			rise = d
		}
	}
	return rise, true
}

// pace tells how often rows come and which intervals moved much charge.
type pace struct {
	count [64]int // of intervals, by powers of two of a millisecond
	rows  int
	long  []interval
	floor float64
}

// interval is the time between two rows.
type interval struct {
	at, seconds, ah float64
}

const longMost = 32

func (p *pace) see(seconds, ah, at float64) {
	p.rows++
	p.count[bits.Len64(uint64(seconds*1000))]++
	if math.Abs(ah) <= p.floor {
		return
	}
	p.long = append(p.long, interval{at, seconds, ah})
	if len(p.long) > 2*longMost {
		p.trim()
	}
}

// trim keeps the intervals that moved most charge.
func (p *pace) trim() {
	byCharge(p.long)
	p.long = p.long[:longMost]
	p.floor = math.Abs(p.long[longMost-1].ah)
}

// typical is an interval that half of all do not exceed, s.
func (p *pace) typical() float64 {
	sum := 0
	for k, n := range p.count {
		if sum += n; 2*sum > p.rows {
			return math.Ldexp(1, k) / 1000
		}
	}
	return 0
}

func byCharge(list []interval) {
	sort.SliceStable(list, func(i, j int) bool { return math.Abs(list[i].ah) > math.Abs(list[j].ah) })
}
