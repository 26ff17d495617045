// Package picture draws the results of the stages as SVG: the ladder of limits,
// the rest-voltage curve, the strip of temperatures, and the year on the road. A
// drawing names classes of the shared style sheet and no colour, so one drawing
// serves day, night and print, page, book and file.
//
// Coordinates are CSS pixels at the width asked for, rounded to a tenth; the
// same input gives the same bytes.
//
// May import: choose, drill, fit, prove, start, travel, wire, finding, physics/cell, quantity, look and the standard library. Pure.
package picture
