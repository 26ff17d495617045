package conductor

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
)

// Mm2PerCmil is one circular mil in mm²: a circle of 0.0254 mm.
const Mm2PerCmil = math.Pi / 4 * 0.0254 * 0.0254

// Area returns the conductor area of a size in mm². AWG follows
//
//	d(n) = 0.005 in · 92^((36-n)/39)    (ASTM B258)
//
// SAE is the least area its gauge may have; metric is the nominal size, which is
// not all copper (see Resistance). Errors: figure.ErrRange for a gauge thicker
// than 4/0 or thinner than 40, and for an SAE gauge that is not in the table.
func Area(size quantity.Size) (mm2 float64, err error) {
	switch size.Gauge {
	case quantity.AWG:
		if size.Number >= -3 && size.Number <= 40 {
			return awgArea(size.Number), nil
		}
	case quantity.SAE:
		if g, ok := row(size.Number); ok && g.saeCmil > 0 {
			return g.saeCmil * Mm2PerCmil, nil
		}
	case quantity.MM2:
		if size.Number > 0 {
			return size.Number, nil
		}
	}
	return 0, fmt.Errorf("no area is tabulated for a conductor of size %q: %w", size, figure.ErrRange)
}

// awgArea is π/4·d² with d in mm.
func awgArea(number float64) float64 {
	d := 0.127 * math.Pow(92, (36-number)/39)
	return math.Pi / 4 * d * d
}

// row returns the table row of a gauge number.
func row(number float64) (gauge, bool) {
	for _, g := range gauges {
		if g.number == number {
			return g, true
		}
	}
	return gauge{}, false
}
