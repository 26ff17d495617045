// Package sheet turns a rig and its fit result into the parts that page and book
// share: findings, window, layers, settings sheets, cautions, figures, sources.
// Everything is prepared as typed text first and then written by one set of
// templates, so a number reads and explains itself the same way everywhere.
//
// A part starts below a heading of level two, which the page or book that holds
// it writes; headings inside a part are of level three.
//
// May import: choose, drill, figure, finding, fit, life, physics/cell, picture, prove, quantity, rig, source,
// travel, wire.
package sheet
