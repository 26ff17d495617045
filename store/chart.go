package store

import (
	"context"
	"fmt"
	"math"
	"time"
)

// mostPoints bounds what one chart may ask for: about as many as a screen has
// dots, and few enough that any span comes back at once.
const mostPoints = 2000

// widths are the widths of buckets that a chart may have, ms. Each divides into a
// level's, so that buckets are never split.
var widths = func() []int64 {
	var list []int64
	add := func(unit int64, times ...int64) {
		for _, n := range times {
			list = append(list, n*unit)
		}
	}
	add(1000, 1, 2, 5, 10, 15, 30)
	add(minutes.ms, 1, 2, 3, 5, 10, 15, 20, 30)
	add(hours.ms, 1, 2, 3, 4, 6, 8, 12)
	add(days.ms, 1, 2, 4, 7, 14, 28, 56, 112, 364)
	return list
}()

// Chart is a series from one time up to, not including, another, as at most so
// many buckets (1 to 2000, else the nearest of these). They are the values
// themselves where they are few enough; else as narrow as they can be, of a round
// width counted from 1970 in UTC, made of the level that Span names. Spans without
// values have no bucket. A series that is not there has none at all.
func (b *Book) Chart(ctx context.Context, series string, from, to time.Time, points int) ([]Bucket, Span, error) {
	points = min(max(points, 1), mostPoints)
	ids, err := b.seriesIDs(ctx, b.db)
	if err != nil {
		return nil, Raw, b.explain(err)
	}
	id, there := ids[series]
	if !there || !from.Before(to) {
		return nil, Raw, nil
	}
	thinned, err := b.thinned(ctx, b.db)
	if err != nil {
		return nil, Raw, b.explain(err)
	}
	c := chart{b, id, max(from.UnixMilli(), earliest.UnixMilli()), to.UnixMilli()}
	list, span, err := c.read(ctx, points, thinned)
	return list, span, b.explain(err)
}

// chart is one request; from and to in ms.
type chart struct {
	book     *Book
	series   int64
	from, to int64
}

func (c chart) read(ctx context.Context, points int, thinned int64) ([]Bucket, Span, error) {
	width := c.width(points)
	l, level := c.level(width)
	if !level && c.from < thinned { // there the minutes are the finest
		width = max(width, minutes.ms)
		l, level = minutes, true
	}
	if level {
		fine, err := c.buckets(ctx, l)
		return shown(gather(fine, width/l.ms), width), l.kind, err
	}
	raw, err := c.points(ctx)
	if len(raw) <= points {
		return each(raw), Raw, err
	}
	return shown(fold(raw, width), width), Raw, err
}

// width is the narrowest of which at most so many cover the span, whichever way
// they fall; beyond the list, a multiple of its last.
func (c chart) width(points int) int64 {
	fits := func(ms int64) bool { return (c.to-1)/ms-c.from/ms < int64(points) }
	for _, ms := range widths {
		if fits(ms) {
			return ms
		}
	}
	ms := widths[len(widths)-1]
	for !fits(ms) && ms < math.MaxInt64/4 {
		ms *= 2
	}
	return ms
}

// level is the widest level that is not wider than the buckets; false is raw.
func (c chart) level(width int64) (level, bool) {
	for i := len(levels) - 1; i >= 0; i-- {
		if width >= levels[i].ms {
			return levels[i], true
		}
	}
	return level{}, false
}

func (c chart) points(ctx context.Context) ([]point, error) {
	var list []point
	err := c.chunks(ctx, Raw, hourMS, func(slot int64, blob []byte) error {
		part, err := unpackPoints(blob, slot*hourMS)
		for _, p := range part {
			if p.at >= c.from && p.at < c.to {
				list = append(list, p)
			}
		}
		return err
	})
	return list, err
}

func (c chart) buckets(ctx context.Context, l level) ([]bucket, error) {
	var list []bucket
	err := c.chunks(ctx, l.kind, l.ms*l.room, func(slot int64, blob []byte) error {
		part, err := unpackBuckets(blob, slot*l.room, l.room)
		for _, p := range part {
			if p.slot >= c.from/l.ms && p.slot*l.ms < c.to {
				list = append(list, p)
			}
		}
		return err
	})
	return list, err
}

// chunks reads those that the span touches, in order; each covers ms.
func (c chart) chunks(ctx context.Context, kind Span, ms int64, do func(slot int64, blob []byte) error) error {
	rows, err := c.book.db.QueryContext(ctx, c.book.sql(`SELECT slot, data FROM chunk
		WHERE rig = $1 AND kind = $2 AND slot >= $3 AND slot <= $4 AND series = $5 ORDER BY slot`),
		c.book.rig, kind, c.from/ms, (c.to-1)/ms, c.series)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var slot int64
		var blob []byte
		if err := rows.Scan(&slot, &blob); err != nil {
			return err
		}
		if err := do(slot, blob); err != nil {
			return fmt.Errorf("%s: %w", c.book.name, damagedChunk(kind, slot))
		}
	}
	return rows.Err()
}

func each(raw []point) []Bucket {
	list := make([]Bucket, len(raw))
	for i, p := range raw {
		list[i] = Bucket{From: time.UnixMilli(p.at).UTC(), N: 1, Min: p.v, Mean: p.v, Max: p.v}
	}
	return list
}

func shown(buckets []bucket, ms int64) []Bucket {
	list := make([]Bucket, len(buckets))
	for i, b := range buckets {
		list[i] = Bucket{From: time.UnixMilli(b.slot * ms).UTC(), Width: time.Duration(ms) * time.Millisecond, N: b.n, Min: b.min, Mean: b.mean, Max: b.max}
	}
	return list
}
