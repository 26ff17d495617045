package store

import (
	"context"
	"fmt"
)

// Check reads the whole logbook of the rig through: the database's own structure,
// and the checksum and order of every entry and every live value. It takes some
// seconds for each year of live values. What does not hold together is ErrDamaged.
func (b *Book) Check(ctx context.Context) error {
	if b.dialect.hold == "" {
		if err := b.quickCheck(ctx, "integrity_check"); err != nil {
			return err
		}
	}
	if err := b.checkReadings(ctx); err != nil {
		return err
	}
	if _, err := b.Meters(ctx); err != nil {
		return err
	}
	if _, err := b.Done(ctx); err != nil {
		return err
	}
	return b.checkChunks(ctx)
}

// checkReadings finds versions that are missing in between.
func (b *Book) checkReadings(ctx context.Context) error {
	all, err := b.readings(ctx, b.db, "SELECT body, crc FROM reading WHERE rig = $1 ORDER BY id, version", b.rig)
	if err != nil {
		return b.explain(err)
	}
	for i, r := range all {
		want := 1
		if i > 0 && all[i-1].ID == r.ID {
			want = all[i-1].Version + 1
		}
		if r.Version != want {
			return b.damaged("lacks version %d of reading %s", want, r.ID)
		}
	}
	return nil
}

func (b *Book) checkChunks(ctx context.Context) error {
	rows, err := b.db.QueryContext(ctx, b.sql("SELECT kind, slot, data FROM chunk WHERE rig = $1"), b.rig)
	if err != nil {
		return b.explain(err)
	}
	defer rows.Close()
	for rows.Next() {
		var kind, slot int64
		var blob []byte
		if err := rows.Scan(&kind, &slot, &blob); err != nil {
			return b.explain(err)
		}
		if err := checkChunk(Span(kind), slot, blob); err != nil {
			return fmt.Errorf("%s: %w", b.name, damagedChunk(Span(kind), slot))
		}
	}
	return b.explain(rows.Err())
}

func checkChunk(kind Span, slot int64, blob []byte) error {
	for _, l := range levels {
		if l.kind == kind {
			_, err := unpackBuckets(blob, slot*l.room, l.room)
			return err
		}
	}
	_, err := unpackPoints(blob, slot*hourMS)
	return err
}
