// Package manual writes manual pages for man from the command line's own model:
// one for the program and one for each of its commands. The macros are those of
// man(7), which every formatter knows.
//
// May import: nothing of ours.
package manual
