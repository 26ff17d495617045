// Package wire answers "which cable, fuse, relay, resistor?": every conductor with
// its current, ampacity, drop and fuse, the prospective short circuit, contactor
// and pre-charge, panel strings, converters and inverters, a parts list and the
// steps of commissioning, with findings for whatever breaks a rule.
//
// Reading order: run.go (the steps), circuits.go (which runs there are and what
// they carry), size.go (the smallest size and the rule that decides), fuses.go,
// rules.go (the table of findings).
//
// May import: circuit, finding, figure, fit, quantity, source, rig, physics/*.
// Pure: no I/O.
package wire
