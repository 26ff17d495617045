package keep

import "math"

// How a drift is told from chance. The thresholds are set so that a bank
// whose groups do not drift raises a false alarm about once in many years of
// visits; docs/keep.md has the rates found with simulated logs.
const (
	told        = 4.5  // sigma, of a slope through the whole log
	toldBroken  = 5.5  // of a slope or a jump behind a break, which was chosen for standing out
	toldLoss    = 7.0  // of a capacity, for a curve that is not quite that of the cells looks like one
	leastTold   = 4    // readings
	leastBreak  = 8    // readings, for a break to be looked for
	leastBehind = 3    // of them behind it
	calm        = 0.7  // see restless
	coarse      = 16   // places tried at first
	chargeSpan  = 0.08 // of the capacity, for another capacity to be looked for
)

// bend is how a group's offset breaks from one straight line.
type bend int

const (
	straight bend = iota
	kink          // another slope from there on
	jump          // a step
	loss          // a step that grows with the charge taken: capacity lost
)

// shape is one way to draw a group's offset through time.
type shape struct {
	charge bool // it also goes with the charge below full: another capacity than reckoned with
	bend   bend
	at     float64 // hours of the break
}

// free counts what the shape may choose beyond level and slope; a break also
// chooses its place.
func (h shape) free() (n int) {
	if h.charge {
		n++
	}
	if h.bend != straight {
		n += 2
	}
	if h.bend == loss {
		n++
	}
	return n
}

// track is one group's offsets through time.
type track struct {
	hours  []float64 // from the last visit backwards, not above 0
	offset []float64 // Ah
	sigma  []float64
	below  []float64 // share of the capacity that was missing
	steps  []float64 // hours at which it was balanced
	stated []prior   // by how much
	room   *space
}

// drawn is a shape fitted.
type drawn struct {
	shape
	layout
	answer
	bic float64
}

// layout says in which columns of a fit the parts of a shape stand, 0 for those
// it does not have. Level and slope are the first two.
type layout struct{ charge, bend, loss, steps, end int }

func (t *track) layout(h shape) layout {
	var l layout
	next := 2
	if h.charge {
		l.charge, next = next, next+1
	}
	if h.bend != straight {
		l.bend, next = next, next+1
	}
	if h.bend == loss {
		l.loss, next = next, next+1
	}
	l.steps, l.end = next, next+len(t.steps)
	return l
}

func (t *track) fit(h shape) drawn { return t.fitIn(h, reweights) }

func (t *track) fitIn(h shape, rounds int) drawn {
	l := t.layout(h)
	q := problem{p: l.end, y: t.offset, sigma: t.sigma, row: func(k int) row { return t.row(h, l, k) }}
	copy(q.priors[l.steps:], t.stated)
	d := drawn{shape: h, layout: l, answer: q.solve(t.room, rounds)}
	d.bic = d.answer.loss + float64(h.free())*math.Log(float64(len(t.offset)))
	if !d.ok {
		d.bic = math.Inf(1)
	}
	return d
}

func (t *track) row(h shape, l layout, k int) (r row) {
	at := t.hours[k]
	r[0], r[1] = 1, at
	if h.charge {
		r[l.charge] = t.below[k]
	}
	if h.bend != straight && at >= h.at {
		r[l.bend] = 1
		if h.bend == kink {
			r[l.bend] = at - h.at
		}
		if h.bend == loss {
			r[l.loss] = t.below[k]
		}
	}
	for j, step := range t.steps {
		if at >= step {
			r[l.steps+j] = 1
		}
	}
	return r
}

// broken is the size of the break.
func (d *drawn) broken() (value, err float64) {
	k := d.layout.bend
	if d.shape.bend == loss {
		k = d.layout.loss
	}
	return d.beta[k], math.Sqrt(d.cov[k][k])
}

// slope is that of the last part, Ah per hour, and its error.
func (d *drawn) slope() (value, err float64) {
	var c row
	c[1] = 1
	if d.shape.bend == kink {
		c[d.layout.bend] = 1
	}
	return d.sum(c)
}

// sum is a sum of columns and its error.
func (d *drawn) sum(c row) (value, err float64) {
	square := 0.0
	for i := range d.end {
		value += c[i] * d.beta[i]
		for j := range d.end {
			square += c[i] * c[j] * d.cov[i][j]
		}
	}
	return value, math.Sqrt(math.Max(0, square))
}

// value is what the fit has at a row.
func (d *drawn) value(r *row) (v float64) {
	for k := range d.end {
		v += d.beta[k] * r[k]
	}
	return v
}

// goes is by how much the offset goes with a whole charge taken, Ah, in the last
// part.
func (d *drawn) goes() (ah float64) {
	if d.shape.charge {
		ah += d.beta[d.layout.charge]
	}
	if d.shape.bend == loss {
		ah += d.beta[d.layout.loss]
	}
	return ah
}

// told reports whether the slope is told from chance.
func (d *drawn) told(readings int) bool {
	value, err := d.slope()
	limit := told
	if d.shape.bend != straight {
		limit = toldBroken
	}
	return d.ok && readings >= leastTold && math.Abs(value) > limit*err
}

// level is the offset at the last visit, at full charge where the offset goes
// with the charge, and its error.
func (d *drawn) level() (value, err float64) {
	var c row
	c[0] = 1
	switch d.shape.bend {
	case kink:
		c[d.layout.bend] = -d.at
	case jump, loss:
		c[d.layout.bend] = 1
	}
	for k := d.steps; k < d.end; k++ {
		c[k] = 1
	}
	return d.sum(c)
}
