// Package cell knows one cell of each chemistry: its rest voltage against state
// of charge, its limits in voltage, current and temperature, its resistance and
// its heat, each figure with its source.
//
// May import: figure, quantity, source and the standard library. Pure: no
// files beyond what is embedded, no clock, no network, no printing.
package cell
