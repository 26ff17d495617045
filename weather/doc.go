// Package weather holds light and air by the hour or by the month at one place,
// whatever they come from: an hourly file, a climate table or a generator.
//
// Irradiance is W/m², irradiation Wh/m², temperature °C, wind m/s at 10 m.
// Instants are universal time.
//
// May import: source, physics/sun and the standard library. Pure: no files, no
// clock, no network.
package weather
