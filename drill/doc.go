// Package drill plays every fault, and every pair of faults, through scenes of
// use before the day it happens, with the bank, the devices and the settings of
// the rig.
//
// May import: assembly, circuit, device, engine, fit, rig, finding, figure,
// quantity, source, physics, weather/climate. One entry: Run. It prints nothing
// and touches no files.
package drill
