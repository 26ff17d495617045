package store

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"strings"
)

// Meters are the logbook's meters by name.
func (b *Book) Meters(ctx context.Context) ([]Meter, error) {
	list, err := bodies[Meter](ctx, b, b.db, "meter", "SELECT body, crc FROM meter WHERE rig = $1", b.rig)
	slices.SortFunc(list, func(a, b Meter) int { return strings.Compare(a.Name, b.Name) })
	return list, b.explain(err)
}

// SetMeter enters a meter, or what is now known of it.
func (b *Book) SetMeter(ctx context.Context, m Meter) error {
	if err := checkMeter(m); err != nil {
		return err
	}
	body, crc, err := sealed(m)
	if err != nil {
		return err
	}
	return b.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, b.sql(`INSERT INTO meter (rig, name, body, crc) VALUES ($1, $2, $3, $4)
			ON CONFLICT (rig, name) DO UPDATE SET body = excluded.body, crc = excluded.crc`), b.rig, m.Name, body, crc)
		return err
	})
}

func checkMeter(m Meter) error {
	if m.Name == "" {
		return &Invalid{"name", "the meter has no name", "1 to 64 characters"}
	}
	if m.StepV < 0 || m.ErrorV < 0 {
		return &Invalid{"error_v", "a negative step or error", "zero or more"}
	}
	return firstOf(checkText("name", m.Name, mostName), checkNumber("step_v", m.StepV), checkNumber("error_v", m.ErrorV))
}

// Done is what was done to the bank, by time.
func (b *Book) Done(ctx context.Context) ([]Done, error) {
	list, err := bodies[Done](ctx, b, b.db, "done", "SELECT body, crc FROM done WHERE rig = $1", b.rig)
	slices.SortFunc(list, func(a, b Done) int {
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return list, b.explain(err)
}

// AddDone stores something done. The same sent again is stored once; another
// under the same ID is ErrConflict.
func (b *Book) AddDone(ctx context.Context, d Done) error {
	d.At = milli(d.At)
	if err := b.checkDone(d); err != nil {
		return err
	}
	body, crc, err := sealed(d)
	if err != nil {
		return err
	}
	return b.write(ctx, func(tx *sql.Tx) error {
		var there string
		err := tx.QueryRowContext(ctx, b.sql("SELECT body FROM done WHERE rig = $1 AND id = $2"), b.rig, d.ID).Scan(&there)
		switch {
		case err == nil && there == body:
			return nil
		case err == nil:
			return fmt.Errorf("done %s: %w", d.ID, ErrConflict)
		case err != sql.ErrNoRows:
			return err
		}
		_, err = tx.ExecContext(ctx, b.sql("INSERT INTO done (rig, id, at, body, crc) VALUES ($1, $2, $3, $4, $5)"), b.rig, d.ID, d.At.UnixMilli(), body, crc)
		return err
	})
}

func (b *Book) checkDone(d Done) error {
	if d.What == "" {
		return &Invalid{"what", "does not say what was done", "1 to 64 characters"}
	}
	return firstOf(
		checkID(d.ID),
		b.checkTime("at", d.At),
		checkText("what", d.What, mostName),
		checkValues("ah_by_group", mostGroups, d.Ah...),
		checkOptional("value", 1, d.Value),
		checkNote(d.Note),
	)
}
