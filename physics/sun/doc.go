// Package sun says where the sun stands and what light it sends: its position by
// the published reference algorithm and by a short one for long runs, rise and
// set, extraterrestrial radiation, air mass, clear skies and the share of
// diffuse light.
//
// Angles are degrees, azimuth clockwise from north, zenith 0 overhead; latitude
// counts north, longitude east. Irradiance is W/m². Instants are universal time
// and carry no zone.
//
// May import: figure, quantity, source and the standard library. Pure: no
// files, no clock, no network, no printing.
package sun
