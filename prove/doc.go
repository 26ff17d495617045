// Package prove tells from the log of a test what a used module is worth:
// capacity, resistance, imbalance and loss of every group, with their errors.
//
// May import: benchlog, rig, fit, finding, figure, quantity, source, physics.
// One entry: Run. It prints nothing; files are read by its callers.
package prove
