package choose

import (
	"context"
	"fmt"
	"runtime"
	"sync"

	"ampstead/finding"
	"ampstead/rig"
	"ampstead/travel"
)

// Run compares the batteries a rig could have. It changes nothing in r. Errors:
// *fit.InputError for a value that cannot be worked with, ctx's error when it is
// cancelled, and then no result; a search that was cancelled keeps what it found.
func Run(ctx context.Context, r *rig.Rig, o Options) (*Result, error) {
	list, err := variants(ctx, r)
	if err != nil {
		return nil, err
	}
	j := &judge{o: o}
	if j.endHours, err = j.limit(ctx, &list[0]); err != nil {
		return nil, err
	}
	res := &Result{Front: []Design{}, Assumed: j.assumed(), Findings: []finding.Finding{},
		Figures: []string{"window-energy", "ageing", "cycle-count", "compensated-voltage"}}
	if err := j.candidates(ctx, list, res); err != nil {
		return nil, err
	}
	if res.Window = []WindowChoice{}; !o.NoWindow {
		if res.Window, res.Pick, err = windows(ctx, list[0].rig, list[0].res, o); err != nil {
			return nil, err
		}
	}
	if o.Search {
		if res.Front, res.Search, err = search(ctx, r, list, j.after(len(list))); err != nil {
			return nil, err
		}
	}
	res.Findings = append(res.Findings, common(list)...)
	finding.Sort(res.Findings)
	return res, nil
}

// limit is how many hours short a year end a life by function: what was asked
// for, or a day more than the rig's own bank leaves now.
func (j *judge) limit(ctx context.Context, own *variant) (float64, error) {
	if j.o.ShortHours > 0 {
		return j.o.ShortHours, nil
	}
	now, err := travel.Run(ctx, own.rig, travel.Options{Years: 1, Seed: j.o.Seed})
	if err != nil {
		return 0, err
	}
	return now.Year.UnservedH + 24, nil
}

// candidates works them all out, on as many workers as asked, each in its own
// place.
func (j *judge) candidates(ctx context.Context, list []variant, res *Result) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	out := make([]*Candidate, len(list))
	found := make([][]finding.Finding, len(list))
	jobs := make(chan int)
	var all sync.WaitGroup
	tell := &teller{tell: j.o.Progress, total: j.total(len(list))}
	for range min(j.workers(), len(list)) {
		all.Go(func() {
			for k := range jobs {
				var err error
				if out[k], found[k], err = j.candidate(ctx, &list[k]); err != nil {
					cancel(err)
					continue
				}
				tell.done()
			}
		})
	}
	for k := range list {
		select {
		case jobs <- k:
		case <-ctx.Done():
		}
	}
	close(jobs)
	all.Wait()
	if err := context.Cause(ctx); err != nil {
		return err
	}
	for k := range list {
		res.Candidates = append(res.Candidates, *out[k])
		res.Findings = append(res.Findings, found[k]...)
		res.Assumed = append(res.Assumed, list[k].assumed...)
		res.Uses = append(res.Uses, list[k].res.Daily.How...)
	}
	return nil
}

// total is how much progress is told of: candidates, then designs.
func (j *judge) total(candidates int) int {
	switch {
	case !j.o.Search:
		return candidates
	case j.o.Designs <= 0:
		return candidates + usualDesigns
	}
	return candidates + j.o.Designs
}

// after are the Options of a search that tells its progress behind that of the
// candidates.
func (j *judge) after(candidates int) Options {
	o := j.o
	if tell := o.Progress; tell != nil {
		o.Progress = func(done, total int) { tell(candidates+done, candidates+total) }
	}
	return o
}

func (j *judge) workers() int {
	if j.o.Workers > 0 {
		return j.o.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// assumed is what holds for every candidate.
func (j *judge) assumed() []string {
	return []string{
		"every battery is judged with the settings fit recommends for it, and as though devices that must go were exchanged",
		fmt.Sprintf("the end by function is the first year that leaves more than %s short", hoursText(j.endHours)),
		"the end by capacity is at 70 % of the rated capacity, of lead-acid at 80 %",
		"usable energy is that of the daily window fit recommends; of lead-acid half the capacity",
		"delivered energy is what the bank gives at its terminals until the earlier of its two ends; price means price and fetching",
	}
}

// teller reports progress from many workers.
type teller struct {
	lock  sync.Mutex
	tell  func(done, total int)
	so    int
	total int
}

func (t *teller) done() {
	t.lock.Lock()
	defer t.lock.Unlock()
	t.so++
	if t.tell != nil {
		t.tell(t.so, t.total)
	}
}
