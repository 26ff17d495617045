package store

import "strings"

// dialect is all that differs between the two databases, besides opening them.
// Everything is written as PostgreSQL takes it.
type dialect struct {
	schema     *strings.Replacer // of the migrations
	parameters *strings.Replacer // of statements
	alone      string            // makes this the only transaction that migrates
	hold       string            // makes this the only transaction that writes to the rig
	code       func(error) error // one of the package's errors, or nil
}

// sqlite needs neither lock: its writing transactions begin as the only one.
var sqliteDialect = dialect{
	schema: strings.NewReplacer(
		"BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY", "INTEGER PRIMARY KEY",
		"BYTEA", "BLOB"),
	parameters: strings.NewReplacer("$", "?"),
	code:       sqliteCode,
}

var postgresDialect = dialect{
	schema:     strings.NewReplacer(" WITHOUT ROWID", ""),
	parameters: strings.NewReplacer(),
	alone:      "SELECT pg_advisory_xact_lock(7410832650)",
	hold:       "SELECT id FROM rig WHERE id = $1 FOR UPDATE",
	code:       postgresCode,
}
