package live

import (
	"context"
	"time"

	"ampstead/store"
)

// Charts is what Charge needs of the logbook.
type Charts interface {
	Chart(ctx context.Context, series string, from, to time.Time, points int) ([]store.Bucket, store.Span, error)
}

// stepTime is how much of the time is read at once: a day by the minute.
const (
	stepTime   = 24 * time.Hour
	stepPoints = 1500
	holdMost   = time.Minute // how long a single value is taken to hold
)

// Charge is the charge that went in from one time to another, Ah, positive
// charging: the stored current times time, from minutes or finer. covered is the
// share of the time in which a current is known; outside it none is counted.
func Charge(ctx context.Context, book Charts, from, to time.Time) (ah, covered float64, err error) {
	known := 0.0
	for begin := from; begin.Before(to); begin = begin.Add(stepTime) {
		end := begin.Add(stepTime)
		if end.After(to) {
			end = to
		}
		buckets, _, err := book.Chart(ctx, Current, begin, end, stepPoints)
		if err != nil {
			return 0, 0, err
		}
		for i, b := range buckets {
			h := lasting(buckets, i, begin, end).Hours()
			ah += b.Mean * h
			known += h
		}
	}
	if !from.Before(to) {
		return 0, 0, nil
	}
	return ah, known / to.Sub(from).Hours(), nil
}

// lasting is how much of a bucket lies in the span; a single value lasts until the
// next, a minute at most.
func lasting(buckets []store.Bucket, i int, from, to time.Time) time.Duration {
	start, width := buckets[i].From, buckets[i].Width
	if width == 0 {
		width = holdMost
		if i+1 < len(buckets) {
			width = min(width, buckets[i+1].From.Sub(start))
		}
	}
	end := start.Add(width)
	if start.Before(from) {
		start = from
	}
	if end.After(to) {
		end = to
	}
	return max(0, end.Sub(start))
}
