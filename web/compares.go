package web

import (
	"context"

	"ampstead/compare"
	"ampstead/rig"
)

// comparer compares two rigs: compare.Run, or what a test puts in its place.
type comparer func(ctx context.Context, a, b *rig.File, o compare.Options) (*compare.Result, error)

// wish is what is to be compared, and how far.
type wish struct {
	was, is       string // contents
	units         string
	travel, drill bool
}

// options are those of a comparison with the year and the faults.
func (w wish) options() compare.Options {
	return compare.Options{Travel: w.travel, Drill: w.drill, Years: tripYears, Units: w.units}
}

// compares reckons the long comparisons in the background.
type compares struct {
	run  comparer
	jobs *held[wish, *compare.Result]
}

// keptCompares is how many are kept.
const keptCompares = 6

func newCompares(run comparer, q *queue) *compares {
	return &compares{run, newHeld[wish, *compare.Result](q, keptCompares)}
}

// of returns the job of a comparison, started when there is none or it was stopped.
func (c *compares) of(w wish, was, is *rig.File) *job[*compare.Result] {
	c.jobs.forgetStopped(w)
	return c.jobs.of(w, func(ctx context.Context, j *job[*compare.Result]) (*compare.Result, error) {
		o := w.options()
		o.Progress = j.progress
		return c.run(ctx, was, is, o)
	})
}

// forgetStopped forgets the job of a key that was stopped.
func (h *held[K, T]) forgetStopped(key K) {
	h.mu.Lock()
	defer h.mu.Unlock()
	j := h.jobs[key]
	if j == nil || !j.stopped() {
		return
	}
	delete(h.jobs, key)
	for i, k := range h.keys {
		if k == key {
			h.keys = append(h.keys[:i:i], h.keys[i+1:]...)
			return
		}
	}
}

// stop ends a comparison and waits until it has ended.
func (c *compares) stop(w wish) {
	if j := c.jobs.known(w); j != nil {
		j.cancel()
		<-j.done
	}
}
