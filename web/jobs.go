package web

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"
)

// patience is how long a page waits for a quick run before it shows progress.
const patience = 250 * time.Millisecond

// queue does work behind the pages, one run at a time. What a visitor waits for
// goes before what was begun unasked.
type queue struct {
	mu     sync.Mutex
	closed bool
	line   chan struct{} // holds one token: who has it may work
	unask  chan struct{} // the same for runs that nobody waits for
	behind chan struct{} // of the unasked run that was begun last; see turn
	awaits int           // runs that somebody waits for
	calm   chan struct{} // closed while there are none of those
	now    func() time.Time
	all    sync.WaitGroup
}

func newQueue() *queue {
	q := &queue{line: make(chan struct{}, 1), unask: make(chan struct{}, 1), calm: make(chan struct{}), now: time.Now}
	q.line <- struct{}{}
	q.unask <- struct{}{}
	close(q.calm)
	return q
}

// close lets nothing new begin, ends what runs, and waits until it has ended.
func (q *queue) close(ends ...func()) {
	q.mu.Lock()
	q.closed = true
	q.mu.Unlock()
	for _, end := range ends {
		end()
	}
	q.all.Wait()
}

// also does something beside the line that ends by itself soon; false once nothing
// new begins.
func (q *queue) also(do func()) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	if q.closed {
		return false
	}
	q.all.Go(do)
	return true
}

// task is what is the same about jobs of every kind.
type task struct {
	cancel context.CancelFunc
	done   chan struct{}
	err    error     // stands after done is closed
	ended  time.Time // so does this
	turn   *turn     // nil for one that never began

	mu     sync.Mutex
	at, of int // progress
}

// job is one run and what came of it. After done is closed result stands.
type job[T any] struct {
	task
	result T
}

// begin starts work when what was begun before it has ended; unasked, also only
// while nobody waits for anything.
func begin[T any](q *queue, unasked bool, work func(context.Context, *job[T]) (T, error)) *job[T] {
	ctx, cancel := context.WithCancel(context.Background())
	j := &job[T]{task: task{cancel: cancel, done: make(chan struct{})}}
	q.mu.Lock()
	defer q.mu.Unlock()
	if q.closed {
		cancel()
		j.err = ctx.Err()
		close(j.done)
		return j
	}
	j.turn = q.enlist(ctx, unasked)
	q.all.Go(func() {
		defer close(j.done)
		defer cancel()
		defer j.turn.end()
		if j.err = j.turn.begin(); j.err != nil {
			return
		}
		result, err := work(ctx, j)
		if ctx.Err() != nil {
			err = ctx.Err()
		}
		if j.err, j.ended = err, q.now(); err == nil {
			j.result = result
		}
	})
	return j
}

// progress takes how far a run is. One that nobody waits for is held back here
// while somebody waits for another.
func (t *task) progress(at, of int) {
	t.mu.Lock()
	t.at, t.of = at, of
	t.mu.Unlock()
	t.turn.giveWay()
}

// state returns how far the task is.
func (t *task) state() (at, of int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.at, t.of
}

// over reports whether the task has ended.
func (t *task) over() bool {
	select {
	case <-t.done:
		return true
	default:
		return false
	}
}

// stopped reports whether it was stopped before it ended.
func (t *task) stopped() bool { return t.over() && errors.Is(t.err, context.Canceled) }

// wait gives a quick run the time to end before the page is made.
func (t *task) wait(ctx context.Context, patience time.Duration) {
	late := time.NewTimer(patience)
	defer late.Stop()
	select {
	case <-t.done:
	case <-late.C:
	case <-ctx.Done():
	}
}

// running says how far a run is.
type running struct {
	Done  int    `json:"done"`
	Total int    `json:"total"`
	Say   string `json:"say"`
	Over  bool   `json:"over"`
}

// running tells it; what names what is counted, "years reckoned".
func (t *task) running(what string) running {
	done, total := t.state()
	r := running{Done: done, Total: total, Over: t.over(), Say: "Getting ready."}
	if total > 0 {
		r.Say = fmt.Sprintf("%d of %d %s.", done, total, what)
	}
	return r
}

// kept is the one job of its kind for the content of the file at hand. A job for
// a content that is no longer on disk is stopped.
type kept[T any] struct {
	queue *queue

	mu    sync.Mutex
	stamp string // content the job belongs to
	job   *job[T]
}

// of returns the job for a reading, started when there is none.
func (k *kept[T]) of(now *reading, work func(context.Context, *job[T]) (T, error)) *job[T] {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stamp != now.stamp || k.job == nil {
		k.renew(now, false, work)
	}
	k.job.hurry()
	return k.job
}

// unasked returns the job for a reading, started when there is none as one that
// nobody waits for.
func (k *kept[T]) unasked(now *reading, work func(context.Context, *job[T]) (T, error)) *job[T] {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stamp != now.stamp || k.job == nil {
		k.renew(now, true, work)
	}
	return k.job
}

// anew starts a job for a reading in place of the one there was.
func (k *kept[T]) anew(now *reading, work func(context.Context, *job[T]) (T, error)) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.renew(now, false, work)
}

func (k *kept[T]) renew(now *reading, unasked bool, work func(context.Context, *job[T]) (T, error)) {
	k.drop()
	k.stamp, k.job = now.stamp, begin(k.queue, unasked, work)
}

// known returns the job if there is one for this reading.
func (k *kept[T]) known(now *reading) *job[T] {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stamp != now.stamp {
		return nil
	}
	return k.job
}

// stop ends the job and waits for its end, a moment; it stays stopped until again
// is asked for.
func (k *kept[T]) stop(now *reading) {
	if j := k.known(now); j != nil {
		j.cancel()
		<-j.done
	}
}

// again forgets a job that was stopped or failed.
func (k *kept[T]) again() {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.job != nil && k.job.over() && k.job.err != nil {
		k.job = nil
	}
}

// end cancels the job for good.
func (k *kept[T]) end() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.drop()
}

func (k *kept[T]) drop() {
	if k.job != nil {
		k.job.cancel()
		k.job = nil
	}
}
