package drill

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// pool plays runs on several goroutines at once and tells how far it has come.
type pool struct {
	workers  int
	progress func(done, total int)

	mu          sync.Mutex
	done, total int
	reserved    int // of total, runs that are only expected
}

func newPool(o Options) *pool {
	p := &pool{workers: o.Workers, progress: o.Progress}
	if p.workers <= 0 {
		p.workers = runtime.GOMAXPROCS(0)
	}
	return p
}

// expect announces about n runs that later plans make use of, so that the total
// is right from the beginning, or nearly.
func (p *pool) expect(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.total += n
	p.reserved += n
}

// plan announces n more runs.
func (p *pool) plan(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.total += max(0, n-p.reserved)
	p.reserved = max(0, p.reserved-n)
}

// finish tells that no more runs come.
func (p *pool) finish() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.progress != nil && p.total != p.done {
		p.progress(p.done, p.done)
	}
}

// tick counts a run.
func (p *pool) tick() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.done++
	if p.progress != nil {
		p.progress(p.done, p.total)
	}
}

// each does every k from 0 to n-1. It stops at the first error, or soon after ctx
// is cancelled, and returns that error. Which k runs when is left open: do must
// keep its result by k.
func (p *pool) each(ctx context.Context, n int, do func(k int) error) error {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(p.workers, n) {
		all.Go(func() {
			for k := int(next.Add(1)) - 1; k < n && ctx.Err() == nil; k = int(next.Add(1)) - 1 {
				if err := do(k); err != nil {
					stop(err)
					return
				}
				p.tick()
			}
		})
	}
	all.Wait()
	return context.Cause(ctx)
}
