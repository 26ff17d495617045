// Package bank is a battery bank of groups in series: charge, rest voltage,
// relaxation, resistance, leak and heat of every group, stepped through time.
//
// Each group is one equivalent circuit, current I positive when charging:
//
//	V = OCV(soc) + r1·j + I·r0      rest voltage, slow branch, fast resistance
//	d(soc)/dt = (I − leak)/capacity  the leak is inside, beside the rest voltage
//	dj/dt     = (I − j)/τ            j is the current through r1 of the slow branch
//	heat      = I²·r0 + j²·r1 + leak·OCV
//
// Within a step the current is constant and all of this is solved exactly, so a
// step may be of any length; r0 and r1 keep their value over it. The heat of
// reaction (the reversible term −I·T·dU/dT of Bernardi's balance) is left out: no
// entropy table is carried for most cells, and over a charge and discharge it
// comes to nothing.
//
// Groups stand in a row: each has one temperature, loses heat to the
// surroundings, conducts to its two neighbours and takes a share of the heater.
// Heat gathers until it would warm the bank by 0.02 K or five minutes are over;
// then the temperatures move by the explicit Euler rule, in as many parts as
// keep it stable. The resistances follow once a temperature has moved 0.05 K.
//
// Outside 0..1 the rest voltage runs on along its last slope, so that a group
// driven past full or empty shows as voltage beyond the limits; it is no model
// of what the cell then suffers.
//
// May import: physics/cell, figure, quantity, source and the standard library.
// Pure: no files, no clock, no network, no printing. Stepping allocates nothing.
package bank
