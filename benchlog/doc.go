// Package benchlog reads the file of any logger: it recognises the layout, says
// how it understood it, and streams the rows in SI in bounded memory.
//
// May import: the standard library. It reads from an io.Reader it is handed and
// touches no files, clock or network.
package benchlog
