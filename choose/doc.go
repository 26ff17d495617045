// Package choose compares batteries for the rig's devices, route and habits, and
// searches whole designs for the best trade-off.
//
// May import: life, travel, fit, wire, rig, finding, figure, quantity, source,
// physics. It touches no files and prints nothing.
package choose
