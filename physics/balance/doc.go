// Package balance reads the charge of parallel groups from their rest voltages:
// what one has leaked between two readings, and what each must give up to stand
// level with the lowest.
//
// May import: figure, quantity, source, physics/cell and the standard library.
// Pure.
package balance
