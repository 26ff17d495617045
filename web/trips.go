package web

import (
	"context"
	"sync"

	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/travel"
)

// tripYears is how many weather years the page reckons.
const tripYears = 10

// reckon reckons years on the road: travel.Run, or what a test puts in its place.
type reckon func(ctx context.Context, r *rig.Rig, o travel.Options) (*travel.Result, error)

// trip is the job of a year on the road.
type trip = job[*travel.Result]

// trips reckons the year on the road in the background, and stretches of it in
// detail.
type trips struct {
	run   reckon
	year  kept[*travel.Result]
	spans *held[travel.SpanWish, *travel.Result]

	mu    sync.Mutex
	stamp string // content the spans belong to
}

// keptSpans is how many spans are kept for one content.
const keptSpans = 12

func newTrips(run reckon, q *queue) *trips {
	return &trips{run: run, year: kept[*travel.Result]{queue: q}, spans: newHeld[travel.SpanWish, *travel.Result](q, keptSpans)}
}

// of returns the job of the whole year for a reading, started when there is none.
func (t *trips) of(now *reading) *trip {
	t.mu.Lock()
	t.turnTo(now.stamp)
	t.mu.Unlock()
	return t.year.of(now, func(ctx context.Context, j *trip) (*travel.Result, error) { return t.whole(ctx, now.file.Rig, j) })
}

// unasked is the same for a year that nobody waits for.
func (t *trips) unasked(now *reading) *trip {
	return t.year.unasked(now, func(ctx context.Context, j *trip) (*travel.Result, error) { return t.whole(ctx, now.file.Rig, j) })
}

// known returns the job of the whole year if there is one for this reading.
func (t *trips) known(now *reading) *trip { return t.year.known(now) }

// span returns the job of some days in detail.
func (t *trips) span(now *reading, wish travel.SpanWish) *trip {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.turnTo(now.stamp)
	return t.spans.of(wish, func(ctx context.Context, j *trip) (*travel.Result, error) {
		return t.run(ctx, now.file.Rig, travel.Options{Years: 1, Span: &wish, Progress: j.progress})
	})
}

// turnTo drops the spans of another content of the file.
func (t *trips) turnTo(stamp string) {
	if t.stamp != stamp {
		t.spans.end()
		t.stamp = stamp
	}
}

// whole reckons the years, what limits the rig, and the hardest week in detail.
func (t *trips) whole(ctx context.Context, r *rig.Rig, j *trip) (*travel.Result, error) {
	res, err := t.run(ctx, r, travel.Options{Years: tripYears, Limits: true, Workers: j.workers(), Progress: j.progress})
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

// end stops everything.
func (t *trips) end() {
	t.year.end()
	t.spans.end()
}
