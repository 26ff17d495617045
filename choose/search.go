package choose

import (
	"context"
	"math"
	"math/rand/v2"
	"sync"
	"time"

	"ampstead/rig"
	"ampstead/travel"
)

// usualDesigns is how many designs a search tries unless told.
const usualDesigns = 1000

// searcher is one search.
type searcher struct {
	o      Options
	space  *space
	tariff *tariff
	roads  *roads
	draw   *rand.Rand

	known map[genes]outcome // from a search that was interrupted
	seen  map[genes]bool
	list  []*point // in the order they were thought of
	tell  *teller
	key   string
}

// point is a design with what it came to.
type point struct {
	genes genes
	outcome
	price, kg float64
	over      float64 // how far beyond the constraints, as shares of them; 0 within
}

// search looks for the best designs: first spread over everything that may vary,
// then bred from the best, in generations whose size does not depend on the
// number of workers. Every design gets a brisk year; those on the front are run
// again by the minute, and only what then still stands is shown. Cancelling ctx
// ends it early with what the brisk years found by then. Errors: *fit.InputError, also for a state
// to resume that is not of this search, and what Save returns.
func search(ctx context.Context, r *rig.Rig, list []variant, o Options) ([]Design, *Search, error) {
	began := time.Now()
	s, err := newSearcher(ctx, r, list, o)
	if err != nil {
		return nil, nil, err
	}
	stopped, err := s.run(ctx)
	if err != nil {
		return nil, nil, err
	}
	out := &Search{Designs: len(s.list), Asked: s.o.Designs, Seed: o.Seed, Years: 1, Stopped: stopped,
		Varied: append(s.space.said, s.tariff.said...), Limits: limitsText(s.o, s.tariff.currency)}
	for _, p := range s.list {
		if p.fits() {
			out.Kept++
			out.Cloud = append(out.Cloud, Spot{p.price, p.kg, p.Hours, p.Years.Middle})
		}
	}
	best, stands := thin(front(s.list), mostExact), find(s.list, s.space.today(0))
	if !stopped {
		if best, stands, out.Stopped, err = s.byTheMinute(ctx, best, stands); err != nil {
			return nil, nil, err
		}
	}
	designs := s.designs(thin(best, mostOnFront))
	if stands != nil {
		out.Stands = &s.designs([]*point{stands})[0]
		out.Stands.Why = "the rig as it stands"
	}
	out.Seconds = time.Since(began).Seconds()
	return designs, out, nil
}

func newSearcher(ctx context.Context, r *rig.Rig, list []variant, o Options) (*searcher, error) {
	if o.Designs <= 0 {
		o.Designs = usualDesigns
	}
	s := &searcher{o: o, seen: map[genes]bool{}, known: map[genes]outcome{}, key: keyOf(r)}
	if err := s.resume(o.Resume); err != nil {
		return nil, err
	}
	s.tariff = tariffOf(r)
	var err error
	if s.space, err = spaceOf(r, s.tariff.inCurrency(list)); err != nil {
		return nil, err
	}
	s.tariff.batteries(s.space)
	s.draw = newDraw(o.Seed)
	s.tell = &teller{tell: o.Progress, total: o.Designs}
	s.roads, err = newRoads(ctx, &list[0], o)
	return s, err
}

func newDraw(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0x9E3779B97F4A7C15)) }

// newRoads prepares the weather, and the hours short that end a life: as for the
// candidates, what was asked for or a day more than the rig's own bank leaves now.
func newRoads(ctx context.Context, own *variant, o Options) (*roads, error) {
	ground, err := travel.NewGround(own.rig, travel.Options{Seed: o.Seed})
	if err != nil {
		return nil, err
	}
	d := &roads{ground: ground, brisk: true, most: o.ShortHours}
	if d.most > 0 {
		return d, nil
	}
	now, err := ground.Year(ctx, own.rig, own.res)
	if err != nil {
		return nil, err
	}
	d.most = now.Year.UnservedH + 24
	return d, nil
}

// Sizes of the steps of a search; ours.
const (
	firstShare  = 0.4 // of all designs, spread over everything
	generations = 25  // of 1000 designs, 40 in each
	mostExact   = 60  // designs of the front that are run by the minute
)

// generation is how many designs are bred at once, and saved.
func (s *searcher) generation() int { return min(max(4, s.o.Designs/generations), 40) }

// run tries designs until there are as many as asked for, nothing new is left, or
// ctx is cancelled.
func (s *searcher) run(ctx context.Context) (stopped bool, err error) {
	first, size := int(math.Ceil(firstShare*float64(s.o.Designs))), s.generation()
	next := s.spread(first)
	for len(next) > 0 && err == nil && !stopped {
		part := next[:min(size, len(next))]
		next = next[len(part):]
		stopped, err = s.try(ctx, part)
		if len(next) == 0 && !stopped && err == nil {
			next = s.breed(min(size, s.o.Designs-len(s.list)))
		}
	}
	return stopped, err
}

// try runs some designs on as many workers as asked, each into its own place, and
// saves the state.
func (s *searcher) try(ctx context.Context, part []genes) (stopped bool, err error) {
	out := make([]*point, len(part))
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	jobs := make(chan int)
	var all sync.WaitGroup
	for range min((&judge{o: s.o}).workers(), len(part)) {
		all.Go(func() {
			for k := range jobs {
				p, err := s.point(ctx, part[k])
				if err != nil {
					cancel(err)
					continue
				}
				out[k] = p
				s.tell.done()
			}
		})
	}
	for k := range part {
		select {
		case jobs <- k:
		case <-ctx.Done():
		}
	}
	close(jobs)
	all.Wait()
	for _, p := range out {
		if p != nil {
			s.list = append(s.list, p)
		}
	}
	return s.settle(context.Cause(ctx))
}

// byTheMinute runs designs and the rig as it stands again with every minute by
// itself, and keeps those that no other one beats then. Interrupted, it keeps them
// as they were.
func (s *searcher) byTheMinute(ctx context.Context, list []*point, stands *point) (best []*point, now *point, stopped bool, err error) {
	exact := *s
	roads := *s.roads
	roads.brisk = false
	exact.roads, exact.known, exact.list, exact.o.Save, exact.tell = &roads, nil, nil, nil, &teller{}
	part := []genes{stands.genes}
	for _, p := range list {
		if p.genes != stands.genes {
			part = append(part, p.genes)
		}
	}
	stopped, err = exact.try(ctx, part)
	if stopped || err != nil {
		return list, stands, stopped, err
	}
	return front(exact.list), exact.list[0], false, nil
}

// settle saves what is done and tells being cancelled from failing.
func (s *searcher) settle(cause error) (stopped bool, err error) {
	if cause != nil && !cancelled(cause) {
		return false, cause
	}
	if s.o.Save != nil {
		if err := s.o.Save(s.state()); err != nil {
			return false, err
		}
	}
	return cause != nil, nil
}

// point works out one design.
func (s *searcher) point(ctx context.Context, g genes) (*point, error) {
	r := s.space.build(g)
	p := &point{genes: g}
	p.price, p.kg = s.tariff.total(s.space, g, r)
	var known bool
	if p.outcome, known = s.known[g]; !known {
		var err error
		if p.outcome, err = s.roads.year(ctx, r, s.space.base[g[whichBattery]].variant, s.beaten(p)); err != nil {
			return nil, err
		}
	}
	p.over = s.over(p)
	return p, nil
}

// beaten compares a design, whose years of life are at most those given, with what
// was tried before this generation: one that is beaten even so needs no look at
// its end by function. Where years are a constraint, every design gets one.
func (s *searcher) beaten(p *point) func(outcome) bool {
	if s.o.Life > 0 {
		return nil
	}
	return func(f outcome) bool {
		hopeful := *p
		hopeful.outcome = f
		hopeful.over = s.over(&hopeful)
		return beaten(&hopeful, s.list)
	}
}

// over is how far a design is beyond the constraints.
func (s *searcher) over(p *point) float64 {
	if p.Failed {
		return math.Inf(1)
	}
	sum := 0.0
	beyond := func(v, most float64) {
		if most > 0 && v > most {
			sum += (v - most) / most
		}
	}
	beyond(p.price, s.o.Budget)
	beyond(p.kg, s.o.Mass)
	beyond(p.Hours, s.o.ShortHours)
	if s.o.Life > 0 && p.Years.Middle < s.o.Life {
		sum += (s.o.Life - p.Years.Middle) / s.o.Life
	}
	return sum
}

func (p *point) fits() bool { return p.over == 0 }

// find is the point of a design, nil when it was not tried.
func find(list []*point, g genes) *point {
	for _, p := range list {
		if p.genes == g {
			return p
		}
	}
	return nil
}
