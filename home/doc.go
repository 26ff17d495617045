// Package home says of one rig where it stands: what to do today, what is between
// the person and connecting the bank, and how each of the seven stages stands. It
// reckons nothing itself; it puts the results of the stages into a few words. Page
// and command line show the same.
//
// It never says that something is safe. It says what was looked at and found, and
// which stage has not been asked yet.
//
// May import: choose, drill, finding, fit, keep, prove, quantity, rig, travel, wire.
package home
