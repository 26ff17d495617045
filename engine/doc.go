// Package engine steps a bank with its devices on one dc bus.
//
//	bank ── contactor ── main cable ── bus ── cable ── source
//	  └── loads that bypass the contactor    └── loads
//
// Each step: every device is shown what was true at its start (guards first,
// then contactors, sources and loads), the bus is solved for the end of the step
// with the bank as a voltage behind a resistance, sources as voltages behind
// their cables with a bound on current and power, and loads of constant power
// and current; then the bank takes the step and the books, extremes, log and
// trace are written. With the bank's contactor open the sources feed the bus
// alone, or it is dead.
//
// May import: device, physics/bank and the standard library. Pure: no files, no
// clock, no network, no printing. Stepping allocates nothing.
package engine
