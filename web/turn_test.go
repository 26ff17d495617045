package web

import (
	"context"
	"testing"
	"time"
)

// strides is a run that goes on step by step as a test lets it, and notes each.
type strides struct {
	at   chan int // it stands before a step
	let  chan struct{}
	done chan int
}

func newStrides() *strides {
	return &strides{make(chan int, 100), make(chan struct{}), make(chan int, 100)}
}

func (s *strides) work(ctx context.Context, j *job[int]) (int, error) {
	for n := 1; n <= 3; n++ {
		s.at <- n
		select {
		case <-s.let:
		case <-ctx.Done():
			return 0, ctx.Err()
		}
		s.done <- n
		j.progress(n, 3)
	}
	return 3, nil
}

// stands waits until a run stands before its next step.
func (s *strides) stands(t *testing.T) {
	t.Helper()
	select {
	case <-s.at:
	case <-time.After(10 * time.Second):
		t.Fatal("the run does not go on")
	}
}

// goes lets a run take the step before which it stands, or comes to stand.
func (s *strides) goes(t *testing.T) {
	t.Helper()
	select {
	case s.let <- struct{}{}:
		<-s.done
	case <-time.After(10 * time.Second):
		t.Fatal("the run does not go on")
	}
}

// rests is asserted of a run that must be held up: nothing takes its step. There is
// nothing to wait for, so it is asked a few times.
func (s *strides) rests(t *testing.T) {
	t.Helper()
	for range 20 {
		select {
		case s.let <- struct{}{}:
			t.Fatal("the run goes on though another one is awaited")
		case <-time.After(time.Millisecond):
		}
	}
}

// finishes lets a run take what steps it has left.
func (s *strides) finishes(t *testing.T, j *job[int]) {
	t.Helper()
	for {
		select {
		case s.let <- struct{}{}:
			<-s.done
		case <-j.done:
			if j.err != nil || j.result != 3 || j.ended.IsZero() {
				t.Fatalf("result %d, error %v", j.result, j.err)
			}
			return
		case <-time.After(10 * time.Second):
			t.Fatal("the run does not end")
		}
	}
}

func TestWhatIsAwaitedGoesBeforeWhatNobodyAskedFor(t *testing.T) {
	q := newQueue()
	behind, first := newStrides(), newStrides()
	b := begin(q, true, behind.work)
	behind.stands(t)
	behind.goes(t)
	behind.stands(t)
	f := begin(q, false, first.work)
	behind.goes(t) // the step at hand is brought to its end
	behind.rests(t)
	first.finishes(t, f)
	behind.finishes(t, b)
}

func TestUnaskedRunsComeOneByOne(t *testing.T) {
	q := newQueue()
	one, two, three := newStrides(), newStrides(), newStrides()
	a, b, c := begin(q, true, one.work), begin(q, true, two.work), begin(q, true, three.work)
	one.goes(t)
	two.rests(t)
	one.finishes(t, a)
	two.goes(t)
	three.rests(t)
	two.finishes(t, b)
	three.finishes(t, c)
}

// A run that somebody comes to wait for is one of the others: it waits for those
// before it, and what nobody waits for waits for it.
func TestAskedForLater(t *testing.T) {
	q := newQueue()
	one, two, three := newStrides(), newStrides(), newStrides()
	a := begin(q, true, one.work)
	one.stands(t)
	one.goes(t)
	one.stands(t)
	b := begin(q, true, two.work)
	b.hurry()
	if b.workers() != 0 {
		t.Errorf("%d workers for a run that is awaited", b.workers())
	}
	one.goes(t)
	one.rests(t)
	two.goes(t)
	c := begin(q, false, three.work)
	three.rests(t)
	two.finishes(t, b)
	three.finishes(t, c)
	one.finishes(t, a)
}

func TestUnaskedRunThatIsHeldUpCanBeEnded(t *testing.T) {
	q := newQueue()
	behind, first := newStrides(), newStrides()
	b := begin(q, true, behind.work)
	behind.stands(t)
	behind.goes(t)
	behind.stands(t)
	f := begin(q, false, first.work)
	behind.goes(t)
	b.cancel()
	<-b.done
	if !b.stopped() {
		t.Errorf("error %v", b.err)
	}
	late := begin(q, true, newStrides().work)
	q.close(f.cancel, late.cancel)
	<-f.done
	<-late.done
	if q.awaits != 0 {
		t.Errorf("%d runs are awaited after the end", q.awaits)
	}
	if j := begin(q, true, newStrides().work); !j.over() || q.also(func() {}) {
		t.Error("something begins after the end")
	}
}
