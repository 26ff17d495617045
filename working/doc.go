// Package working says how a number was worked out: it turns the figures that
// were applied, the values that were taken and the runs of the simulation into
// the plain workings a finding carries, and tells once, for each simulation, the
// chain of figures it is made of, what it assumes and how well it was found to
// hold.
//
// May import: figure, finding, quantity, source.
package working
