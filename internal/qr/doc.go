// Package qr draws an address as a QR code (ISO/IEC 18004): on a page as one SVG,
// on a terminal with half blocks. Always dark on light, with the quiet zone of four
// modules that the standard asks for, because cameras read nothing else for sure.
//
// May import: nothing of ours.
package qr
