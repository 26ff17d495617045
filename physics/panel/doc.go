// Package panel turns light into power: what of it falls on a tilted plane, what
// passes the glass, how warm the cells get, what they give, and how high their
// voltage rises in the cold.
//
// Irradiance is W/m², temperature °C, power W, wind m/s at the height of the
// panel. Tilt is 0° flat, facing is clockwise from north.
//
// May import: figure, quantity, source, physics/sun and the standard library.
// Pure: no files, no clock, no network, no printing.
package panel
