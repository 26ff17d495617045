// Package figure is how an engineering formula is registered once: its name,
// what it answers, inputs and outputs, equation, source, range and published
// checks. The registry computes, explains a number on a page, serves as a
// handbook on the command line and tests itself.
//
// The figures themselves are declared beside their formulas in the physics
// packages; package handbook gathers them.
//
// May import: quantity, source and the standard library.
package figure
