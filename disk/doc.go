// Package disk says in plain words why a disk did not take what was written, for
// the page and the command line alike.
//
// May import: the standard library only.
package disk
