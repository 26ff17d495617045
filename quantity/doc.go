// Package quantity holds values with their units: how people write them, what
// they mean, and how they are shown again in metric or US units.
//
// Every quantity is a named float64 in one base unit: volt, ampere, ampere-hour,
// watt, watt-hour, ohm, degree Celsius, metre, kilogram, second, fraction. Its
// Dimension lists the units it may be written in. A bare number where a unit is
// needed, a unit of another dimension, and a slip that could mean two things
// (MV for mV) are errors that say what was expected.
//
// Parse and Text work on the named types, the methods of Dimension on plain
// numbers. Conductor sizes and money are not amounts of one unit and have their
// own types, Size and Money.
//
// May import: the standard library only.
package quantity
