// Package life ages a rig's bank by its own years on the road: each year's charge,
// temperature and current from travel feeds the ageing model of the cell, and the
// faded bank travels the next.
//
// Reading order: run.go (the years ahead), start.go (from where), road.go (the
// year on the road by capacity), walk.go (year after year), quick.go (the same
// from one year alone).
//
// What is assumed:
//   - A year is one weather year by the seed, the same one every year, so that
//     only the bank changes.
//   - Settings given in the rig stay as they are; what is not given follows what
//     fit recommends for the bank as it has become.
//   - A year on the road depends on the bank by its capacity, and by the
//     resistance it has when it comes down to that capacity. It is run at
//     capacities a step apart; in between, hours and energies go straight, and
//     depths and rates with the inverse of the capacity.
//   - The end by capacity is where a share of the rated capacity is left, the end
//     by function where a year like this one leaves more hours short than asked.
//   - A bank of less than half its rated capacity is not followed: no model says
//     anything of it.
//
// May import: travel, fit, rig, quantity, figure, physics/ageing, physics/cell.
// Pure but for the time it takes.
package life
