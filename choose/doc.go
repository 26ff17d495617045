// Package choose compares batteries for the rig's devices, route and habits, and
// searches whole designs for the best trade-off.
//
// Reading order: run.go, variant.go and with.go (the rig with each battery in
// it), misfit.go (what does not suit it), candidate.go (what it comes to),
// remark.go and ask.go (what is known and to be asked), window.go (the daily
// window against years), search.go and front.go (whole designs), design.go (a
// design as a rig file).
//
// May import: life, travel, fit, wire, rig, finding, figure, quantity, source,
// physics. It touches no files and prints nothing.
package choose
