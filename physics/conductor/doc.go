// Package conductor knows copper conductors by the size they are sold in: their
// area, resistance and ampacity from the published tables, the voltage they
// drop, the size a permitted drop asks for and the current a shorted bank
// drives through them.
//
// Resistance is that of one conductor; lengths are one way and the loop out and
// back is twice that. Tables are interpolated between their rows, never beyond.
//
// May import: figure, quantity, source and the standard library. Pure: no
// files, no clock, no network, no printing.
package conductor
