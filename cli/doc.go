// Package cli is the command line: one file per command, each a thin layer over
// a stage package. A Program is a value with its arguments and streams, so that
// tests run it without a process. Exit status: 0 nothing worse than care, 1 a
// stop finding, 2 bad usage or input, 3 an internal failure or interruption.
//
// May import: everything below it.
package cli
