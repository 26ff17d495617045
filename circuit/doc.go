// Package circuit is what several stages need to know of a rig's wiring: the
// graph of its cables, the current a short draws from its bank, and the rules
// that every fuse of the bank must keep.
//
// May import: figure, finding, quantity, rig, physics/cell, physics/conductor.
// Pure: no I/O.
package circuit
