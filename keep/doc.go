// Package keep tells from the logbook how the bank is doing and what to do today:
// which group drifts, what to bleed, how much capacity and life are left.
//
// May import: store (for its types), life, fit, rig, finding, figure, quantity,
// source, physics. It opens no database and reads no clock: its callers hand it
// readings and the time.
package keep
