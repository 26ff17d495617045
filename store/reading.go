package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// Add stores a reading as the first version of its ID. The same reading sent
// again is stored once: fresh is then false, and what comes back is the latest
// version of it. Another reading under the same ID is ErrConflict; a reading that
// cannot be stored as it stands is *Invalid.
func (b *Book) Add(ctx context.Context, r Reading) (stored Reading, fresh bool, err error) {
	r, err = b.first(r)
	if err != nil {
		return Reading{}, false, err
	}
	err = b.write(ctx, func(tx *sql.Tx) error {
		stored, fresh, err = b.add(ctx, tx, r)
		return err
	})
	return stored, fresh, err
}

// AddAll adds many readings, all of them or, on any error, none. fresh is how
// many were not there before.
func (b *Book) AddAll(ctx context.Context, readings []Reading) (fresh int, err error) {
	cleaned := make([]Reading, len(readings))
	for i, r := range readings {
		if cleaned[i], err = b.first(r); err != nil {
			return 0, fmt.Errorf("reading %d: %w", i+1, err)
		}
	}
	err = b.write(ctx, func(tx *sql.Tx) error {
		fresh = 0
		for i, r := range cleaned {
			_, isFresh, err := b.add(ctx, tx, r)
			if err != nil {
				return fmt.Errorf("reading %d: %w", i+1, err)
			}
			if isFresh {
				fresh++
			}
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	return fresh, nil
}

// first checks a reading and makes it version 1.
func (b *Book) first(r Reading) (Reading, error) {
	r.Version, r.Gone = 1, false
	return b.clean(r)
}

func (b *Book) add(ctx context.Context, tx *sql.Tx, r Reading) (Reading, bool, error) {
	versions, err := b.versions(ctx, tx, r.ID)
	if err != nil {
		return Reading{}, false, err
	}
	if len(versions) == 0 {
		return r, true, b.insert(ctx, tx, r)
	}
	if !sameContent(versions[0], r) {
		return Reading{}, false, fmt.Errorf("reading %s: %w", r.ID, ErrConflict)
	}
	return versions[len(versions)-1], false, nil
}

// Correct stores a new version; the old ones stay. r.Version is the version it
// corrects: when that is no longer the latest, the error is ErrChanged and nothing
// is stored, unless the very same correction is stored already. ErrUnknown when
// there is no such reading. A withdrawn reading comes back by a correction.
func (b *Book) Correct(ctx context.Context, r Reading) (Reading, error) {
	r.Gone = false
	r.Version++
	r, err := b.clean(r)
	if err != nil {
		return Reading{}, err
	}
	return b.next(ctx, r.ID, func(Reading) Reading { return r }, r.Version)
}

// Withdraw stores a version that takes the reading out of the log; its earlier
// versions stay. version is the one it withdraws, and the errors are as of Correct.
func (b *Book) Withdraw(ctx context.Context, id string, version int, note string) error {
	if err := checkNote(note); err != nil {
		return err
	}
	_, err := b.next(ctx, id, func(latest Reading) Reading {
		latest.Version, latest.Entered = version+1, milli(b.now())
		latest.Gone, latest.Note = true, note
		return latest
	}, version+1)
	return err
}

// next stores a version on top of the latest, or finds it stored already.
func (b *Book) next(ctx context.Context, id string, change func(Reading) Reading, version int) (Reading, error) {
	var stored Reading
	err := b.write(ctx, func(tx *sql.Tx) error {
		versions, err := b.versions(ctx, tx, id)
		if err != nil {
			return err
		}
		if len(versions) == 0 {
			return fmt.Errorf("reading %s: %w", id, ErrUnknown)
		}
		latest := versions[len(versions)-1]
		stored = change(latest)
		if latest.Version == version && sameContent(latest, stored) {
			stored = latest
			return nil
		}
		if latest.Version+1 != version {
			return fmt.Errorf("reading %s is at version %d, not %d: %w", id, latest.Version, version-1, ErrChanged)
		}
		return b.insert(ctx, tx, stored)
	})
	if err != nil {
		return Reading{}, err
	}
	return stored, nil
}

// Readings are the latest versions by the time they were taken, without the
// withdrawn ones.
func (b *Book) Readings(ctx context.Context) ([]Reading, error) {
	list, err := b.readings(ctx, b.db, `SELECT body, crc FROM reading r WHERE rig = $1 AND gone = 0
		AND version = (SELECT max(version) FROM reading WHERE rig = r.rig AND id = r.id)`, b.rig)
	slices.SortFunc(list, func(a, b Reading) int {
		if c := a.Taken.Compare(b.Taken); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return list, b.explain(err)
}

// Versions are all versions of a reading, the first one first; none when there is
// no such reading.
func (b *Book) Versions(ctx context.Context, id string) ([]Reading, error) {
	list, err := b.versions(ctx, b.db, id)
	return list, b.explain(err)
}

func (b *Book) versions(ctx context.Context, q queryer, id string) ([]Reading, error) {
	return b.readings(ctx, q, "SELECT body, crc FROM reading WHERE rig = $1 AND id = $2 ORDER BY version", b.rig, id)
}

func (b *Book) readings(ctx context.Context, q queryer, statement string, args ...any) ([]Reading, error) {
	return bodies[Reading](ctx, b, q, "reading", statement, args...)
}

func (b *Book) insert(ctx context.Context, tx *sql.Tx, r Reading) error {
	body, crc, err := sealed(r)
	if err != nil {
		return err
	}
	gone := 0
	if r.Gone {
		gone = 1
	}
	_, err = tx.ExecContext(ctx, b.sql("INSERT INTO reading (rig, id, version, taken, gone, body, crc) VALUES ($1, $2, $3, $4, $5, $6, $7)"),
		b.rig, r.ID, r.Version, r.Taken.UnixMilli(), gone, body, crc)
	return err
}

// sameContent compares what a person entered, not when and as which version.
func sameContent(a, b Reading) bool {
	a.Version, a.Entered = b.Version, b.Entered
	one, err := json.Marshal(a)
	other, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(one, other)
}
