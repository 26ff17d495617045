// Package device is the equipment around a bank as small state machines:
// chargers, relays, meters, contactors, converters, inverters, heaters and
// cut-outs. Each is a plain struct of settings and state with one method, Step.
//
// A device knows only what its Sense tells it and acts only through its Port.
// A fault is a wrapper around either: it hands the device an altered copy of the
// Sense, or alters the Port the device wrote.
//
// Time goes on in steps of any length. A device sees what was true at the start
// of a step and acts for the whole of it, so a delay is kept to within a step.
//
// May import: the standard library only. Pure: no files, no clock, no network,
// no printing. Stepping allocates nothing.
package device
