package bank

import (
	"errors"

	"ampstead/physics/cell"
)

// segments is how finely the rest voltage is tabulated. The curve is straight
// between its own points, so only segments that hold a point differ from it: by
// 3 mV at worst, at the steep ends of iron-phosphate, else by less than 1 mV.
const segments = 4096

// The resistance factor is tabulated from coldestC in steps of 1/perKelvin.
const (
	coldestC  = -40
	perKelvin = 2
	kelvins   = 120
)

// Table is one kind of cell made ready for stepping. It never changes: build it
// once and share it between banks and goroutines.
type Table struct {
	rest   [segments]line
	factor [kelvins * perKelvin]line
}

// line is a straight piece at + slope·x, with what integrates it: the integral
// from x = 0 is sum + x·(at + slope·x/2).
type line struct{ at, slope, sum float64 }

// NewTable tabulates a cell. Error: it has no rest-voltage curve.
func NewTable(c *cell.Cell) (*Table, error) {
	if c == nil || c.Curve.Empty() {
		return nil, errors.New("the cell has no rest-voltage curve")
	}
	t := new(Table)
	tabulate(t.rest[:], 0, 1.0/segments, c.Curve.Voltage)
	tabulate(t.factor[:], coldestC, 1.0/perKelvin, c.ResistanceFactor)
	if c.Family == cell.LeadAcid {
		t.rest[segments-1].steepen(1-1.0/segments, acidFull)
	}
	return t, nil
}

// acidFull is how steeply the voltage of a full lead-acid cell rises, V for the
// whole charge; ours, from memory. Its rest voltage ends 0.3 V below what it is
// charged at: the rest is gassing, which stores nothing. Without the rise it
// would take in charge far beyond full.
const acidFull = 10.0

// steepen turns a piece up from x on, its value and integral there unchanged.
func (l *line) steepen(x, slope float64) {
	value, integral := l.value(x), l.integral(x)
	l.at, l.slope = value-slope*x, slope
	l.sum = integral - x*(l.at+0.5*slope*x)
}

func tabulate(lines []line, from, step float64, f func(float64) float64) {
	sum, y := 0.0, f(from)
	for k := range lines {
		x0, x1 := from+float64(k)*step, from+float64(k+1)*step
		next := f(x1)
		slope := (next - y) / step
		l := line{at: y - slope*x0, slope: slope}
		l.sum = sum - x0*(l.at+0.5*slope*x0)
		lines[k] = l
		sum, y = l.integral(x1), next
	}
}

func (l *line) value(x float64) float64    { return l.at + l.slope*x }
func (l *line) integral(x float64) float64 { return l.sum + x*(l.at+0.5*l.slope*x) }

// restAt returns the piece for a state of charge; beyond the ends, the last.
func (t *Table) restAt(soc float64) *line {
	k := int(soc * segments)
	if k < 0 {
		k = 0
	}
	if k > segments-1 {
		k = segments - 1
	}
	return &t.rest[k]
}

// factorAt returns the resistance factor, held constant outside the table.
func (t *Table) factorAt(tempC float64) float64 {
	x := min(max(tempC, coldestC), coldestC+kelvins)
	k := int((x - coldestC) * perKelvin)
	if k < 0 {
		k = 0
	}
	if k > len(t.factor)-1 {
		k = len(t.factor) - 1
	}
	return t.factor[k].value(x)
}

// RestVoltage returns the rest voltage (V) at a state of charge, beyond 0..1
// along the last slope.
func (t *Table) RestVoltage(soc float64) float64 { return t.restAt(soc).value(soc) }
