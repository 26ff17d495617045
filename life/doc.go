// Package life ages a rig's bank by its own years on the road: each year's charge,
// temperature and current from travel feeds the ageing model of the cell, and the
// faded bank travels the next.
//
// May import: travel, fit, rig, quantity, figure, physics/ageing, physics/cell.
// Pure but for the time it takes.
package life
