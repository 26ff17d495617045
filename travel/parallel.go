package travel

import (
	"context"
	"runtime"
	"sync"
)

// job is all runs that share one year's weather: the weather and light are made
// once.
type job struct{ number int }

// reckon runs every year, and every change over the first years, on as many
// workers as there are cores. Each result has its own place, so that the number
// of workers changes nothing.
func (s *study) reckon(ctx context.Context) error {
	n := s.skies.years(s.o.Years)
	s.years = make([]*yearTally, n)
	s.runs = make([][]*yearTally, len(s.tried))
	for i := range s.runs {
		s.runs[i] = make([]*yearTally, min(n, limitYears))
	}
	p := &progress{tell: s.o.Progress, total: s.count(n)}
	return s.spread(ctx, n, p)
}

// count is the number of runs.
func (s *study) count(n int) int {
	total := n + len(s.tried)*min(n, limitYears)
	if s.alone != nil {
		total++
	}
	return total
}

func (s *study) spread(ctx context.Context, n int, p *progress) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	jobs := make(chan job)
	var all sync.WaitGroup
	workers := s.o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	for range min(workers, n) {
		all.Go(func() {
			bench := &bench{light: newLight()}
			for j := range jobs {
				if err := s.year(ctx, j.number, bench, p); err != nil {
					cancel(err)
				}
			}
		})
	}
	for k := range n {
		select {
		case jobs <- job{k}:
		case <-ctx.Done():
		}
	}
	close(jobs)
	all.Wait()
	return context.Cause(ctx)
}

// bench is what a worker uses again for every year.
type bench struct {
	light  *light
	turned *light // of panels turned otherwise
}

// year makes a year's weather and runs all that is to be run in it.
func (s *study) year(ctx context.Context, number int, b *bench, p *progress) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	sky := s.skies.year(number)
	b.light.fill(s.route, sky)
	var wish *SpanWish
	if number == 0 {
		wish = s.o.Span
	}
	var err error
	if s.years[number], err = s.world.run(ctx, sky, b.light, number, wish); err != nil {
		return err
	}
	p.done()
	if number == 0 && s.alone != nil {
		if s.left, err = s.alone.run(ctx, sky, b.light, number, nil); err != nil {
			return err
		}
		p.done()
	}
	if number >= limitYears {
		return nil
	}
	return s.changes(ctx, sky, number, b, p)
}

// changes runs every change in a year.
func (s *study) changes(ctx context.Context, sky []daySky, number int, b *bench, p *progress) error {
	for i := range s.tried {
		v := &s.tried[i]
		l := b.light
		if v.turned {
			if b.turned == nil {
				b.turned = newLight()
			}
			l = b.turned
			l.fill(v.world.route, sky)
		}
		out, err := v.world.run(ctx, sky, l, number, nil)
		if err != nil {
			return err
		}
		s.runs[i][number] = out
		p.done()
	}
	return nil
}

// progress tells how far a run has come.
type progress struct {
	lock  sync.Mutex
	tell  func(done, total int)
	so    int
	total int
}

func (p *progress) done() {
	p.lock.Lock()
	defer p.lock.Unlock()
	p.so++
	if p.tell != nil {
		p.tell(p.so, p.total)
	}
}
