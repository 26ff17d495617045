package web

import (
	"context"
	"errors"
	"sync"
	"time"

	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/travel"
)

// tripYears is how many weather years the page reckons.
const tripYears = 10

// reckon reckons years on the road: travel.Run, or what a test puts in its place.
type reckon func(ctx context.Context, r *rig.Rig, o travel.Options) (*travel.Result, error)

// trips reckons the year on the road in the background: one run at a time, kept
// for the content of the file it belongs to. A run for a content that is no
// longer on disk is stopped.
type trips struct {
	run reckon

	mu     sync.Mutex
	stamp  string // content the jobs belong to
	year   *job
	spans  map[travel.SpanWish]*job
	order  []travel.SpanWish // of spans, oldest first
	closed bool
	line   chan struct{} // holds one token: who has it may reckon
	all    sync.WaitGroup
}

// keptSpans is how many spans are kept for one content.
const keptSpans = 12

func newTrips(run reckon) *trips {
	t := &trips{run: run, line: make(chan struct{}, 1)}
	t.line <- struct{}{}
	return t
}

// job is one run and what came of it. After done is closed result and err stand.
type job struct {
	cancel context.CancelFunc
	done   chan struct{}
	result *travel.Result
	err    error

	mu     sync.Mutex
	at, of int // progress
}

func (j *job) progress(at, of int) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.at, j.of = at, of
}

// state returns how far the job is.
func (j *job) state() (at, of int) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.at, j.of
}

// over reports whether the job has ended.
func (j *job) over() bool {
	select {
	case <-j.done:
		return true
	default:
		return false
	}
}

// stopped reports whether it was stopped before it ended.
func (j *job) stopped() bool { return j.over() && errors.Is(j.err, context.Canceled) }

// wait gives a quick run the time to end before the page is made.
func (j *job) wait(ctx context.Context, patience time.Duration) {
	late := time.NewTimer(patience)
	defer late.Stop()
	select {
	case <-j.done:
	case <-late.C:
	case <-ctx.Done():
	}
}

// of returns the job of the whole year for a reading, started when there is none.
func (t *trips) of(now *reading) *job {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.turnTo(now.stamp)
	if t.year == nil {
		t.year = t.start(func(ctx context.Context, j *job) (*travel.Result, error) { return t.whole(ctx, now.file.Rig, j) })
	}
	return t.year
}

// known returns the job of the whole year if there is one for this reading.
func (t *trips) known(now *reading) *job {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.stamp != now.stamp {
		return nil
	}
	return t.year
}

// span returns the job of some days in detail.
func (t *trips) span(now *reading, wish travel.SpanWish) *job {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.turnTo(now.stamp)
	if j := t.spans[wish]; j != nil && !j.stopped() {
		return j
	}
	if len(t.order) >= keptSpans {
		t.spans[t.order[0]].cancel()
		delete(t.spans, t.order[0])
		t.order = t.order[1:]
	}
	j := t.start(func(ctx context.Context, j *job) (*travel.Result, error) {
		return t.run(ctx, now.file.Rig, travel.Options{Years: 1, Span: &wish, Progress: j.progress})
	})
	if t.spans[wish] == nil {
		t.order = append(t.order, wish)
	}
	t.spans[wish] = j
	return j
}

// turnTo drops what belongs to another content of the file.
func (t *trips) turnTo(stamp string) {
	if t.stamp == stamp {
		return
	}
	t.drop()
	t.stamp, t.year, t.spans, t.order = stamp, nil, map[travel.SpanWish]*job{}, nil
}

func (t *trips) drop() {
	if t.year != nil {
		t.year.cancel()
	}
	for _, j := range t.spans {
		j.cancel()
	}
}

// start runs work behind the page, when the one before it has ended.
func (t *trips) start(work func(context.Context, *job) (*travel.Result, error)) *job {
	ctx, cancel := context.WithCancel(context.Background())
	j := &job{cancel: cancel, done: make(chan struct{})}
	if t.closed {
		cancel()
		j.err = ctx.Err()
		close(j.done)
		return j
	}
	t.all.Go(func() {
		defer close(j.done)
		defer cancel()
		select {
		case <-t.line:
		case <-ctx.Done():
			j.err = ctx.Err()
			return
		}
		defer func() { t.line <- struct{}{} }()
		j.result, j.err = work(ctx, j)
		if ctx.Err() != nil {
			j.result, j.err = nil, ctx.Err()
		}
	})
	return j
}

// whole reckons the years, what limits the rig, and the hardest week in detail.
func (t *trips) whole(ctx context.Context, r *rig.Rig, j *job) (*travel.Result, error) {
	res, err := t.run(ctx, r, travel.Options{Years: tripYears, Limits: true, Progress: j.progress})
	if err != nil {
		return nil, err
	}
	week, err := t.run(ctx, r, travel.Options{Years: 1, Span: sheet.HardWeek(res)})
	if err != nil {
		return nil, err
	}
	res.Span = week.Span
	return res, nil
}

// stop ends the run of the year; it stays stopped until again is asked for.
func (t *trips) stop() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.year != nil {
		t.year.cancel()
	}
}

// again forgets a year that was stopped or could not be reckoned.
func (t *trips) again() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.year != nil && t.year.over() && t.year.err != nil {
		t.year = nil
	}
}

// close stops everything and waits for it to end.
func (t *trips) close() {
	t.mu.Lock()
	t.closed = true
	t.drop()
	t.mu.Unlock()
	t.all.Wait()
}
