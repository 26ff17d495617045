// Package setpoint holds the settings that are a working habit of the trade and
// not a law: tail current, float, delays, restart, the marks of frost and heat.
// Each is a plain function with its rule written out as a figure, so that a
// number on a settings sheet can say that it is a habit, and whose.
//
// May import: figure, quantity, source, physics/cell,
// physics/tolerance and the standard library. Pure.
package setpoint
