// Package book prints a rig: one self-contained HTML file with style for paper,
// and its PDF where a browser is installed. Cautions come first, sources last.
//
// May import: look, quantity, sheet and the standard library.
package book
