// Package protect knows what guards a circuit: standard fuse ratings and what a
// class of fuse can interrupt on dc, the pre-charge of capacitors before a
// contactor closes, and the heat of a pad on its area.
//
// May import: figure, quantity, source and the standard library. Pure: no
// files, no clock, no network, no printing.
package protect
