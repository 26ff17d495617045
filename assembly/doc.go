// Package assembly makes a rig that can be stepped out of a rig file: the bank
// with its measured capacity, resistance and groups in its box, and every device
// with the settings it has today, on cables with their resistance. Simulations
// of a year and of faults start from the same assembly.
//
// A setting the file does not give is set as fit recommends and listed among
// what was assumed.
//
// May import: rig, fit, device, engine, quantity, physics/bank, cell, conductor
// and convert. Pure: no files, no clock, no network, no printing.
package assembly
