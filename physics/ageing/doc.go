// Package ageing says what time, warmth, charge and use take from a cell: fits
// to published tests, each with its range, its source and a spread that comes
// from a comparison with independent open data (docs/ageing.md), and the counting
// of cycles by the standard's rule.
//
// Shares are fractions of new or rated capacity, times are days, temperatures °C
// and throughput is in full equivalents (Ah discharged over rated Ah).
//
// May import: figure, quantity, source, physics/cell and the standard library.
package ageing
