// Package measure holds the formulas that turn readings of a test into numbers:
// a resistance from a step of current, a capacity from pairs of charge moved and
// change of state of charge, with their standard errors.
//
// May import: figure, quantity, source and the standard library. Pure.
package measure
