// Package table packs grids of numbers on the globe and reads them back: whole
// numbers of a step, each written as its difference from the neighbour to the
// west, and pressed with gzip.
//
// May import: the standard library only.
package table
