package cell

import (
	"fmt"
	"math"
)

// Curve is a rest voltage against state of charge, straight between its points.
// It is a small handle on a table that never changes: copy it freely, share it
// between goroutines. The zero Curve is empty and only good for Empty.
type Curve struct{ t *table }

// table holds the points with what lookups need beside them.
type table struct {
	soc, volt    []float64
	segments     []segment
	bySoC, byVol index
}

// segment is one straight piece, kept together so that a lookup touches one
// place in memory.
type segment struct {
	soc, volt float64 // its lower end
	slope     float64 // V per unit of charge
	energy    float64 // V, the integral of voltage from empty to its lower end
}

// bins is the size of the uniform index over each axis: enough that a bin
// rarely holds more than one or two points.
const bins = 512

// index leads from a value straight to the segment near it.
type index struct {
	low, perUnit float64
	first        [bins + 1]uint16 // segment at or below the lower edge of each bin
}

// NewCurve makes a curve from states of charge (fraction, from exactly 0 to
// exactly 1) and rest voltages (V). Errors: fewer than two or more than 10,000
// points, unequal lengths, a value that is not finite, ends other than 0 and 1,
// or either list not strictly rising.
func NewCurve(soc, volt []float64) (Curve, error) {
	if err := checkPoints(soc, volt); err != nil {
		return Curve{}, err
	}
	t := &table{soc: append([]float64(nil), soc...), volt: append([]float64(nil), volt...)}
	t.segments = segmentsOf(t.soc, t.volt)
	t.bySoC, t.byVol = indexOf(t.soc), indexOf(t.volt)
	return Curve{t}, nil
}

func checkPoints(soc, volt []float64) error {
	n := len(soc)
	switch {
	case n != len(volt):
		return fmt.Errorf("%d states of charge but %d voltages", n, len(volt))
	case n < 2 || n > 10000:
		return fmt.Errorf("%d points; expected 2 to 10,000", n)
	case soc[0] != 0 || soc[n-1] != 1:
		return fmt.Errorf("states of charge run from %g to %g; expected from 0 to 1", soc[0], soc[n-1])
	}
	for k := range soc {
		if !finite(soc[k]) || !finite(volt[k]) {
			return fmt.Errorf("point %d is not a finite number", k+1)
		}
		if k > 0 && !(soc[k] > soc[k-1]) {
			return fmt.Errorf("state of charge %g at point %d does not rise above %g", soc[k], k+1, soc[k-1])
		}
		if k > 0 && !(volt[k] > volt[k-1]) {
			return fmt.Errorf("voltage %g V at point %d does not rise above %g V", volt[k], k+1, volt[k-1])
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func segmentsOf(soc, volt []float64) []segment {
	segments := make([]segment, len(soc)-1)
	energy := 0.0
	for k := range segments {
		width := soc[k+1] - soc[k]
		segments[k] = segment{soc[k], volt[k], (volt[k+1] - volt[k]) / width, energy}
		energy += width * (volt[k] + volt[k+1]) / 2
	}
	return segments
}

func indexOf(x []float64) index {
	last := len(x) - 1
	ix := index{low: x[0], perUnit: bins / (x[last] - x[0])}
	k := 0
	for b := range ix.first {
		edge := x[0] + (float64(b)-0.5)/ix.perUnit // half a bin early, so that rounding cannot overshoot
		for k < last-1 && x[k+1] <= edge {
			k++
		}
		ix.first[b] = uint16(k)
	}
	return ix
}

// bin returns a segment at or below the one that holds x; x lies in range. Not
// a number goes to the first, so that it comes out as not a number.
func (ix *index) bin(x float64) int {
	b := (x - ix.low) * ix.perUnit
	switch {
	case b >= bins:
		return int(ix.first[bins])
	case b > 0:
		return int(ix.first[int(b)])
	}
	return 0
}

// Empty reports whether the curve has no points.
func (c Curve) Empty() bool { return c.t == nil }

// Points returns the curve's points, soc as a fraction and volt in V. The
// slices are the curve's own and must not be changed.
func (c Curve) Points() (soc, volt []float64) { return c.t.soc, c.t.volt }

// Span returns the rest voltages at 0 and 100 % charge, V.
func (c Curve) Span() (low, high float64) {
	return c.t.volt[0], c.t.volt[len(c.t.volt)-1]
}

// Voltage returns the rest voltage (V) at a state of charge, held at the ends
// outside 0..1.
func (c Curve) Voltage(soc float64) float64 {
	soc = min(max(soc, 0), 1)
	s := c.t.atSoC(soc)
	return s.volt + (soc-s.soc)*s.slope
}

// SoC returns the state of charge (fraction) whose rest voltage is volt, 0 or 1
// outside the curve.
func (c Curve) SoC(volt float64) float64 {
	low, high := c.Span()
	volt = min(max(volt, low), high)
	s := c.t.atVoltage(volt)
	return min(s.soc+(volt-s.volt)/s.slope, 1)
}

// Slope returns how steeply rest voltage rises at a state of charge, V per unit
// of charge (so a hundredth of it per percent).
func (c Curve) Slope(soc float64) float64 {
	return c.t.atSoC(min(max(soc, 0), 1)).slope
}

// Energy returns the integral of rest voltage between two states of charge, V;
// times a capacity in Ah it is Wh. Negative when to is below from.
func (c Curve) Energy(from, to float64) float64 {
	return c.t.energyTo(to) - c.t.energyTo(from)
}

func (t *table) energyTo(soc float64) float64 {
	soc = min(max(soc, 0), 1)
	s := t.atSoC(soc)
	width := soc - s.soc
	return s.energy + width*(s.volt+width*s.slope/2)
}

func (t *table) atSoC(soc float64) *segment {
	k := t.bySoC.bin(soc)
	for k < len(t.segments)-1 && soc >= t.segments[k+1].soc {
		k++
	}
	return &t.segments[k]
}

func (t *table) atVoltage(volt float64) *segment {
	k := t.byVol.bin(volt)
	for k < len(t.segments)-1 && volt >= t.segments[k+1].volt {
		k++
	}
	return &t.segments[k]
}
