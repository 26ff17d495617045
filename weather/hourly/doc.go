// Package hourly reads weather files in the open formats: EPW, TMY3, TMY2, PVGIS
// (CSV and JSON, typical year and hourly series), NSRDB and SURFRAD. The format
// is recognised by the content; gzip is unpacked.
//
// A file that is cut short, out of order or holds impossible values is refused
// with the number of the line. Nothing is repaired beyond short gaps of
// temperature and wind, which the Basis then counts.
//
// May import: source, weather, physics/sun and the standard library. No files:
// it reads from a reader.
package hourly
