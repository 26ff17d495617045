// Package logbook takes readings in as people have them, typed, pasted or as a
// table, and gives them out again; and it reads a whole logbook for keep.
//
// May import: store, keep, fit, rig, quantity and the standard library. What it
// cannot read it says by field, or by line and column, and stores nothing of it.
package logbook
