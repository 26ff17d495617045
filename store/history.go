package store

import (
	"cmp"
	"context"
	"slices"
	"strings"
)

// History is every version of every reading, withdrawn ones too: by the time its
// first version was taken, then by ID and version.
func (b *Book) History(ctx context.Context) ([]Reading, error) {
	list, err := b.readings(ctx, b.db, "SELECT body, crc FROM reading WHERE rig = $1 ORDER BY id, version", b.rig)
	first := map[string]Reading{}
	for _, r := range list {
		if _, known := first[r.ID]; !known {
			first[r.ID] = r
		}
	}
	slices.SortStableFunc(list, func(a, b Reading) int {
		return cmp.Or(first[a.ID].Taken.Compare(first[b.ID].Taken), strings.Compare(a.ID, b.ID), cmp.Compare(a.Version, b.Version))
	})
	return list, b.explain(err)
}
