// Package convert turns one voltage into another and says what is lost on the
// way: solar charge controllers with their limits, inverters and converters with
// their idle draw.
//
// Power is W, voltage V, current A, efficiency a fraction.
//
// May import: figure, quantity, source and the standard library. Pure: no
// files, no clock, no network, no printing.
package convert
