package store

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"slices"
	"strings"
)

// writer puts points of one series after another into the chunks of a
// transaction. Chunks are written many at a time, since each statement is a round
// trip to a server; a series that is added once is never read after it was written.
type writer struct {
	ctx     context.Context
	book    *Book
	tx      *sql.Tx
	get     *sql.Stmt
	waiting []any // columns of the chunks to write
}

const (
	chunkColumns = 5
	atOnce       = 50 // chunks in one statement
)

func (b *Book) newWriter(ctx context.Context, tx *sql.Tx) (*writer, error) {
	get, err := tx.PrepareContext(ctx, b.sql("SELECT data FROM chunk WHERE rig = $1 AND kind = $2 AND slot = $3 AND series = $4"))
	return &writer{ctx: ctx, book: b, tx: tx, get: get}, err
}

// add stores points, which are in order. Each level is reckoned from what the
// finer one then holds, never added to: that keeps the sums right when values come
// late or twice.
func (w *writer) add(series int64, points []point) error {
	var changed []bucket // minutes of the hours that changed
	for part := range runs(points, func(p point) int64 { return p.at / hourMS }) {
		all, err := w.addRaw(series, part)
		if err != nil {
			return err
		}
		changed = append(changed, fold(all, minutes.ms)...)
	}
	for i, l := range levels {
		held, err := w.addBuckets(series, l, changed)
		if err != nil {
			return err
		}
		if i+1 < len(levels) {
			changed = gather(held, levels[i+1].ms/l.ms)
		}
	}
	return nil
}

// addRaw merges points into their hour and returns all of the hour's, or nothing
// when none was new.
func (w *writer) addRaw(series int64, points []point) ([]point, error) {
	slot := points[0].at / hourMS
	blob, err := w.load(Raw, slot, series)
	if err != nil {
		return nil, err
	}
	all := points
	if blob != nil {
		held, err := unpackPoints(blob, slot*hourMS)
		if err != nil {
			return nil, damagedChunk(Raw, slot)
		}
		if all = merge(held, points); len(all) == len(held) {
			return nil, nil
		}
	}
	return all, w.save(Raw, slot, series, packPoints(all, slot*hourMS))
}

// merge puts points in among the held ones, of which those at the same
// millisecond stay.
func merge(held, points []point) []point {
	all := append(slices.Clip(held), points...)
	if points[0].at > held[len(held)-1].at {
		return all
	}
	slices.SortStableFunc(all, func(a, b point) int { return cmp.Compare(a.at, b.at) })
	return slices.CompactFunc(all, func(a, b point) bool { return a.at == b.at })
}

// addBuckets replaces buckets of one level, which are in order, and returns all
// that the chunks they are in then hold.
func (w *writer) addBuckets(series int64, l level, list []bucket) ([]bucket, error) {
	var held []bucket
	for part := range runs(list, func(b bucket) int64 { return b.slot / l.room }) {
		slot := part[0].slot / l.room
		blob, err := w.load(l.kind, slot, series)
		if err != nil {
			return nil, err
		}
		if blob != nil {
			old, err := unpackBuckets(blob, slot*l.room, l.room)
			if err != nil {
				return nil, damagedChunk(l.kind, slot)
			}
			part = replace(old, part)
		}
		if err := w.save(l.kind, slot, series, packBuckets(part, slot*l.room)); err != nil {
			return nil, err
		}
		held = append(held, part...)
	}
	return held, nil
}

// replace puts fresh buckets in place of the old ones of the same slot.
func replace(old, fresh []bucket) []bucket {
	all := append(slices.Clone(fresh), old...)
	slices.SortStableFunc(all, func(a, b bucket) int { return cmp.Compare(a.slot, b.slot) })
	return slices.CompactFunc(all, func(a, b bucket) bool { return a.slot == b.slot })
}

// runs yields the stretches of a list over which key stays the same.
func runs[T any](list []T, key func(T) int64) func(func([]T) bool) {
	return func(yield func([]T) bool) {
		for from := 0; from < len(list); {
			to := from + 1
			for to < len(list) && key(list[to]) == key(list[from]) {
				to++
			}
			if !yield(list[from:to:to]) {
				return
			}
			from = to
		}
	}
}

func (w *writer) load(kind Span, slot, series int64) ([]byte, error) {
	var blob []byte
	err := w.get.QueryRowContext(w.ctx, w.book.rig, kind, slot, series).Scan(&blob)
	if err == sql.ErrNoRows {
		return nil, nil
	}
	return blob, err
}

func (w *writer) save(kind Span, slot, series int64, blob []byte) error {
	w.waiting = append(w.waiting, w.book.rig, kind, slot, series, blob)
	if len(w.waiting) < atOnce*chunkColumns {
		return nil
	}
	return w.flush()
}

// flush writes what waits.
func (w *writer) flush() error {
	if len(w.waiting) == 0 {
		return nil
	}
	rows := make([]string, len(w.waiting)/chunkColumns)
	for i := range rows {
		n := chunkColumns * i
		rows[i] = fmt.Sprintf("($%d, $%d, $%d, $%d, $%d)", n+1, n+2, n+3, n+4, n+5)
	}
	_, err := w.tx.ExecContext(w.ctx, w.book.sql("INSERT INTO chunk (rig, kind, slot, series, data) VALUES "+strings.Join(rows, ", ")+
		" ON CONFLICT (rig, kind, slot, series) DO UPDATE SET data = excluded.data"), w.waiting...)
	w.waiting = w.waiting[:0]
	return err
}

func damagedChunk(kind Span, slot int64) error {
	return fmt.Errorf("chunk %d of kind %d fails its checksum: %w", slot, kind, ErrDamaged)
}
