package store

import (
	"context"
	"encoding/json"
	"fmt"
	"hash/crc32"
)

// castagnoli is the polynomial of every checksum here (CRC-32C, RFC 3720).
var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// sealed is an entry as JSON with its checksum, which tells a page that the disk
// changed: the database itself would not notice.
func sealed(entry any) (body string, crc int64, err error) {
	text, err := json.Marshal(entry)
	return string(text), int64(crc32.Checksum(text, castagnoli)), err
}

// bodies reads the entries that a statement selects as body and crc.
func bodies[T any](ctx context.Context, b *Book, q queryer, what, statement string, args ...any) ([]T, error) {
	rows, err := q.QueryContext(ctx, b.sql(statement), args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []T
	for rows.Next() {
		var body []byte
		var crc int64
		if err := rows.Scan(&body, &crc); err != nil {
			return nil, err
		}
		var entry T
		if int64(crc32.Checksum(body, castagnoli)) != crc {
			return nil, fmt.Errorf("%s: a %s fails its checksum (%.60s): %w", b.name, what, body, ErrDamaged)
		}
		if err := json.Unmarshal(body, &entry); err != nil {
			return nil, fmt.Errorf("%s: a %s (%v): %w", b.name, what, err, ErrDamaged)
		}
		list = append(list, entry)
	}
	return list, rows.Err()
}
