// Package store is the logbook's database: readings with every version of them,
// meters, what was done, and live values, in SQLite inside the rig folder or, for
// a workshop, in PostgreSQL.
//
// May import: the standard library and the database drivers. It knows no physics.
package store
