// Package handbook gathers every registered figure, so that the command line,
// the page and the book list, explain and verify the same ones.
//
// May import: figure, working and the packages that declare figures.
package handbook
