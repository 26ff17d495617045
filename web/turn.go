package web

import (
	"context"
	"runtime"
)

// turn is a run's place in the queue. A run that somebody waits for takes the
// line; one that was begun unasked works beside it only while nobody waits, and
// becomes one of the others as soon as somebody asks for it.
type turn struct {
	queue *queue
	ctx   context.Context
	asked chan struct{} // closed once somebody waits for it

	before, taken chan struct{} // closed once the unasked run before it, and it, has its token or wants none

	counted, over bool // guarded by the queue

	line, unask bool // tokens it holds; the run's own
}

// enlist gives a run its place. The queue is locked.
func (q *queue) enlist(ctx context.Context, unasked bool) *turn {
	t := &turn{queue: q, ctx: ctx, asked: make(chan struct{})}
	if !unasked {
		t.count()
		return t
	}
	t.before, t.taken = q.behind, make(chan struct{})
	q.behind = t.taken
	return t
}

// count makes it one that somebody waits for. The queue is locked.
func (t *turn) count() {
	if t.counted || t.over {
		return
	}
	t.counted = true
	close(t.asked)
	if t.queue.awaits++; t.queue.awaits == 1 {
		t.queue.calm = make(chan struct{})
	}
}

// hurry says that somebody waits for it.
func (t *task) hurry() {
	if t.turn == nil {
		return
	}
	t.turn.queue.mu.Lock()
	defer t.turn.queue.mu.Unlock()
	t.turn.count()
}

// workers is how many cores a run may take: all of them, given as 0, when somebody
// waits for it; else half, so that the pages keep theirs.
func (t *task) workers() int {
	if t.turn == nil || t.turn.isAsked() {
		return 0
	}
	return max(1, runtime.GOMAXPROCS(0)/2)
}

func (t *turn) isAsked() bool {
	select {
	case <-t.asked:
		return true
	default:
		return false
	}
}

// begin waits until the run may work. Errors: it was cancelled.
func (t *turn) begin() error {
	if t.taken != nil {
		t.lineUp()
		close(t.taken)
	}
	t.giveWay()
	return t.ctx.Err()
}

// lineUp waits for the token of the unasked runs, in the order in which they were
// begun, unless somebody asks for this one.
func (t *turn) lineUp() {
	if t.before != nil {
		select {
		case <-t.before:
		case <-t.asked:
			return
		case <-t.ctx.Done():
			return
		}
	}
	select {
	case <-t.queue.unask:
		t.unask = true
	case <-t.asked:
	case <-t.ctx.Done():
	}
}

// giveWay holds a run up while others go before it.
func (t *turn) giveWay() {
	if t == nil || t.line {
		return
	}
	for !t.isAsked() {
		calm := t.queue.calmness()
		select {
		case <-calm:
			return
		default:
		}
		select {
		case <-calm:
		case <-t.asked:
		case <-t.ctx.Done():
			return
		}
	}
	select {
	case <-t.queue.line:
		t.line = true
	case <-t.ctx.Done():
	}
}

// calmness is closed while nobody waits for a run.
func (q *queue) calmness() chan struct{} {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.calm
}

// end gives back what the run holds.
func (t *turn) end() {
	if t.line {
		t.queue.line <- struct{}{}
	}
	if t.unask {
		t.queue.unask <- struct{}{}
	}
	t.queue.mu.Lock()
	defer t.queue.mu.Unlock()
	t.over = true
	if !t.counted {
		return
	}
	if t.queue.awaits--; t.queue.awaits == 0 {
		close(t.queue.calm)
	}
}
