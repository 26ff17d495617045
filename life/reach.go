package life

import (
	"context"
	"math"
	"runtime"
	"sync"
)

// never is more hours than any year is short of.
var never = math.Inf(1)

// reach runs the year on the road at every milestone, on as many workers as
// asked. Each has its own place, so that their number changes nothing.
func (s *study) reach(ctx context.Context, list []*milestone, p *progress) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	jobs := make(chan *milestone)
	var all sync.WaitGroup
	workers := s.o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	for range min(workers, len(list)) {
		all.Go(func() {
			for m := range jobs {
				if err := s.year(ctx, m); err != nil {
					cancel(err)
					continue
				}
				p.done()
			}
		})
	}
	for _, m := range list {
		select {
		case jobs <- m:
		case <-ctx.Done():
		}
	}
	close(jobs)
	all.Wait()
	return context.Cause(ctx)
}

// progress tells how many years on the road are done.
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

// ohmsAt is the resistance a bank has when it comes to a capacity, over that at
// the start of its path.
func (p *path) ohmsAt(share float64) float64 {
	last := len(p.share) - 1
	for n := 1; n <= last; n++ {
		if share >= p.share[n] && p.share[n-1] > p.share[n] {
			weight := max(0, (p.share[n-1]-share)/(p.share[n-1]-p.share[n]))
			return (p.ohms[n-1] + weight*(p.ohms[n]-p.ohms[n-1])) / p.ohms[0]
		}
	}
	return p.ohms[last] / p.ohms[0]
}
