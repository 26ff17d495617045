package store

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"maps"
	"slices"
	"time"
)

// mostSeries is how many live series a rig may have: a broker with wild topics
// must not fill the disk with them.
const mostSeries = 1000

// AddSamples stores live values together with the minutes, hours and days they
// fall in, in one transaction; give it as many at once as there are. They may come
// in any order and late. A value whose series and millisecond are there already is
// left out, so that sending again changes nothing; so is one from before the time
// that was thinned out. A value that cannot be stored is *Invalid, and then none of
// the batch is stored.
func (b *Book) AddSamples(ctx context.Context, samples []Sample) error {
	bySeries, err := b.sorted(samples)
	if err != nil || len(samples) == 0 {
		return err
	}
	return b.write(ctx, func(tx *sql.Tx) error {
		ids, err := b.enter(ctx, tx, bySeries)
		if err != nil {
			return err
		}
		thinned, err := b.thinned(ctx, tx)
		if err != nil {
			return err
		}
		w, err := b.newWriter(ctx, tx)
		if err != nil {
			return err
		}
		defer w.get.Close()
		for _, name := range slices.Sorted(maps.Keys(bySeries)) {
			if err := w.add(ids[name], since(bySeries[name], thinned)); err != nil {
				return fmt.Errorf("%s: live series %s: %w", b.name, name, err)
			}
		}
		return w.flush()
	})
}

// sorted checks the samples and puts each series in order of time; of two at the
// same millisecond the first stays.
func (b *Book) sorted(samples []Sample) (map[string][]point, error) {
	bySeries := map[string][]point{}
	from, to := earliest.UnixMilli(), b.now().Add(24*time.Hour).UnixMilli()
	for _, s := range samples {
		at := s.At.UnixMilli()
		if at < from || at > to {
			return nil, fmt.Errorf("live series %.64q: %w", s.Series, b.checkTime("at", s.At))
		}
		if err := checkNumber("value", s.Value); err != nil {
			return nil, fmt.Errorf("live series %.64q: %w", s.Series, err)
		}
		bySeries[s.Series] = append(bySeries[s.Series], point{at, s.Value})
	}
	byTime := func(a, b point) int { return cmp.Compare(a.at, b.at) }
	for name, points := range bySeries {
		if err := checkText("series", name, 2*mostName); err != nil || name == "" {
			return nil, &Invalid{"series", fmt.Sprintf("%.200q is no name", name), "1 to 128 characters"}
		}
		if !slices.IsSortedFunc(points, byTime) {
			slices.SortStableFunc(points, byTime)
		}
		bySeries[name] = slices.CompactFunc(points, func(a, b point) bool { return a.at == b.at })
	}
	return bySeries, nil
}

func since(points []point, ms int64) []point {
	i, _ := slices.BinarySearchFunc(points, ms, func(p point, ms int64) int { return cmp.Compare(p.at, ms) })
	return points[i:]
}

// enter finds the numbers of the series and gives one to those that are new.
func (b *Book) enter(ctx context.Context, tx *sql.Tx, bySeries map[string][]point) (map[string]int64, error) {
	ids, err := b.seriesIDs(ctx, tx)
	if err != nil {
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(bySeries)) {
		if _, there := ids[name]; there {
			continue
		}
		if len(ids) >= mostSeries {
			return nil, &Invalid{"series", fmt.Sprintf("%q would be one too many", name), fmt.Sprintf("at most %d series", mostSeries)}
		}
		var id int64
		err := tx.QueryRowContext(ctx, b.sql("INSERT INTO series (rig, name) VALUES ($1, $2) RETURNING id"), b.rig, name).Scan(&id)
		if err != nil {
			return nil, err
		}
		ids[name] = id
	}
	return ids, nil
}

func (b *Book) seriesIDs(ctx context.Context, q queryer) (map[string]int64, error) {
	rows, err := q.QueryContext(ctx, b.sql("SELECT name, id FROM series WHERE rig = $1"), b.rig)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	ids := map[string]int64{}
	for rows.Next() {
		var name string
		var id int64
		if err := rows.Scan(&name, &id); err != nil {
			return nil, err
		}
		ids[name] = id
	}
	return ids, rows.Err()
}

// Series are the names of the live series.
func (b *Book) Series(ctx context.Context) ([]string, error) {
	ids, err := b.seriesIDs(ctx, b.db)
	return slices.Sorted(maps.Keys(ids)), b.explain(err)
}

// thinned is the time before which there are no raw values any more, ms.
func (b *Book) thinned(ctx context.Context, q queryer) (ms int64, err error) {
	err = q.QueryRowContext(ctx, b.sql("SELECT thinned FROM rig WHERE id = $1"), b.rig).Scan(&ms)
	if err == sql.ErrNoRows {
		return 0, nil // a logbook that reads as empty
	}
	return ms, err
}

// Thin drops the raw live values from before a time (rounded down to the hour).
// Their minutes, hours and days stay. It returns how many hours of one series went.
// The file does not shrink; the room is used again.
func (b *Book) Thin(ctx context.Context, before time.Time) (hours int64, err error) {
	if err := b.checkTime("before", before); err != nil {
		return 0, err
	}
	slot := before.UnixMilli() / hourMS
	err = b.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, b.sql("UPDATE rig SET thinned = $2 WHERE id = $1 AND thinned < $2"), b.rig, slot*hourMS)
		if err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, b.sql("DELETE FROM chunk WHERE rig = $1 AND kind = $2 AND slot < $3"), b.rig, Raw, slot)
		if err != nil {
			return err
		}
		hours, err = done.RowsAffected()
		return err
	})
	return hours, err
}
