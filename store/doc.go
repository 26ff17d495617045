// Package store is the logbook's database: readings with every version of them,
// meters, what was done, and live values, in SQLite inside the rig folder or, for
// a workshop, in PostgreSQL.
//
// Readings are kept whole, as JSON with a checksum, and never changed: a correction
// and a withdrawal are further versions. Live values are kept packed, an hour of one
// series in a chunk of about a byte or two a value, with minutes, hours and days
// summed up beside them in the same transaction (migrations/0001.sql, chunk.go).
// Whatever is sent twice is stored once.
//
// What has been acknowledged is on the disk (sqlite.go tells how); a transaction is
// stored whole or not at all; a damaged file is reported and left as it is.
//
// May import: the standard library and the database drivers. It knows no physics.
package store
