// Package tolerance adds up errors: of several devices, of one threshold seen
// at the cell nearest to harm, of a hysteresis against the sag of its own load.
// Protective layers count in the worst case; root-sum-square is for display,
// since devices that grow warm together do not err independently.
//
// May import: figure, quantity, source, physics/cell and the standard library.
// Pure.
package tolerance
