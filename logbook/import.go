package logbook

import (
	"context"
	"fmt"

	"ampstead/store"
)

// Imported counts what came of a table.
type Imported struct {
	Rows    int `json:"rows"`
	Fresh   int `json:"fresh"`   // readings that were not there
	Known   int `json:"known"`   // that were
	Changes int `json:"changes"` // later versions that were not there
}

// Import stores the readings of a table, all first versions or none, then the
// corrections in their order. What is there already is left as it is, so that the
// same table can be imported again.
func Import(ctx context.Context, b *store.Book, rows []store.Reading) (Imported, error) {
	out := Imported{Rows: len(rows)}
	var first, later []store.Reading
	for _, r := range rows {
		if r.Version == 1 {
			first = append(first, r)
		} else {
			later = append(later, r)
		}
	}
	fresh, err := b.AddAll(ctx, first)
	if err != nil {
		return out, err
	}
	out.Fresh, out.Known = fresh, len(first)-fresh
	for _, r := range later {
		changed, err := importVersion(ctx, b, r)
		if err != nil {
			return out, err
		}
		if changed {
			out.Changes++
		} else {
			out.Known++
		}
	}
	return out, nil
}

// importVersion stores a correction unless the logbook has that version.
func importVersion(ctx context.Context, b *store.Book, r store.Reading) (bool, error) {
	versions, err := b.Versions(ctx, r.ID)
	if err != nil {
		return false, err
	}
	if len(versions) >= r.Version {
		return false, nil
	}
	if len(versions) != r.Version-1 {
		return false, fmt.Errorf("reading %s: version %d without version %d before it", r.ID, r.Version, r.Version-1)
	}
	r.Version--
	if r.Gone {
		return true, b.Withdraw(ctx, r.ID, r.Version, r.Note)
	}
	_, err = b.Correct(ctx, r)
	return true, err
}
