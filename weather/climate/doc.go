// Package climate knows the monthly means of sun and temperature of any place on
// land, and the names of some thousand places, without a network: from two
// public-domain grids built into the program. docs/weather.md shows how far it
// is off.
//
// May import: figure, quantity, source, weather, weather/climate/table,
// physics/sun and the standard library.
package climate

//go:generate go run ./derive -from ../../../shared/data/weather -to .
