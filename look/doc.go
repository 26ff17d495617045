// Package look holds the one style sheet that page, book and pictures share:
// colours for day, night and print, type, and the classes of the drawings.
//
// May import: the standard library only.
package look
