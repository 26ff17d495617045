package keep

import (
	"math"
	"slices"
)

// draw chooses the shape by Bayes's criterion: the loss plus ln n for each free
// number, so that a break must earn its keep.
func (t *track) draw() drawn {
	best := t.fit(shape{})
	if len(t.hours) < leastBreak {
		return best
	}
	varied := slices.Max(t.below)-slices.Min(t.below) > chargeSpan
	if varied {
		if d := t.fit(shape{charge: true}); math.Abs(d.beta[d.layout.charge]) > toldLoss*math.Sqrt(d.cov[d.layout.charge][d.layout.charge]) {
			best = better(best, d)
		}
	}
	line := best
	if !t.restless(line) {
		return best
	}
	for _, b := range []bend{kink, jump, loss} {
		if b == loss && !varied {
			continue
		}
		if d := t.breakAt(shape{charge: line.shape.charge, bend: b}); d.stands() {
			best = better(best, d)
		}
	}
	return best
}

func better(a, b drawn) drawn {
	if b.bic < a.bic {
		return b
	}
	return a
}

// restless reports whether the residuals of a line run off to one side for a
// while, alone or with the charge: without that there is no break to look for,
// and most logs are spared the search. The sum of n residuals in sigma, over √n,
// stays below calm for most of what chance makes.
func (t *track) restless(d drawn) bool {
	q := problem{p: d.end, y: t.offset, sigma: t.sigma}
	mean := mean(t.below)
	var sum, with, most float64
	for k := range t.hours {
		r := t.row(d.shape, d.layout, k)
		z := math.Max(-huber, math.Min(huber, q.residual(k, &r, &d.beta)))
		sum, with = sum+z, with+z*(t.below[k]-mean)/chargeSpan/2
		most = math.Max(most, math.Max(math.Abs(sum), math.Abs(with)))
	}
	return most > calm*math.Sqrt(float64(len(t.hours)))
}

// breakAt looks for the best place of a break: coarsely, then ever finer.
func (t *track) breakAt(h shape) drawn {
	first, last := 2, len(t.hours)-leastBehind
	stride := max(1, (last-first)/coarse)
	bic, at := math.Inf(1), first
	try := func(k int) {
		h.at = t.hours[k]
		if d := t.fitIn(h, roughly); d.bic < bic {
			bic, at = d.bic, k
		}
	}
	for k := first; k <= last; k += stride {
		try(k)
	}
	for stride > 1 {
		stride = (stride + 1) / 2
		for _, k := range []int{at - stride, at + stride} {
			if k >= first && k <= last {
				try(k)
			}
		}
	}
	h.at = t.hours[at]
	return t.fit(h)
}

// stands reports whether a break is told from chance.
func (d *drawn) stands() bool {
	if !d.ok {
		return false
	}
	value, err := d.broken()
	limit := toldBroken
	if d.shape.bend == loss {
		limit = toldLoss
	}
	return math.Abs(value) > limit*err
}
