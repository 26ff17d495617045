package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
)

// Copper of the International Annealed Copper Standard.
const (
	Resistivity = 0.017241 // Ω·mm²/m at 20 °C
	slope       = 0.00393  // per K, of the value at 20 °C
	lay         = 1.02     // a strand is longer than its cable: NFPA 70 chapter 9 table 8
	kft         = 304.8    // m in 1000 ft
	coldestC    = -60
	hottestC    = 250
)

// Resistance returns the dc resistance in Ω/m of one stranded copper conductor
// at tempC. Tabulated AWG sizes are NFPA 70 chapter 9 table 8 (stranded,
// uncoated), metric sizes IEC 60228 class 5 (plain); other gauges follow
//
//	R = 1.02 · 0.017241 Ω·mm²/m / area
//
// and all are carried to tempC by R = R20·(1 + 0.00393·(T - 20)). Tinned
// conductors have up to 8 % more. Errors: figure.ErrRange for a size
// outside the tables or a temperature outside -60 to 250 °C.
func Resistance(size quantity.Size, tempC float64) (ohmPerM float64, err error) {
	if !(tempC >= coldestC && tempC <= hottestC) {
		return 0, fmt.Errorf("conductor temperature %g °C is not between %d and %d °C: %w", tempC, coldestC, hottestC, figure.ErrRange)
	}
	at20, err := resistance20(size)
	return at20 * warming(tempC), err
}

// warming is resistance at tempC over that at 20 °C.
func warming(tempC float64) float64 { return 1 + slope*(tempC-20) }

func resistance20(size quantity.Size) (float64, error) {
	if size.Gauge == quantity.MM2 {
		perKm, ok := between(class5, size.Number)
		if !ok {
			return 0, fmt.Errorf("no resistance is tabulated for %v, only for 0.5 to 120 mm²: %w", size, figure.ErrRange)
		}
		return perKm / 1000, nil
	}
	if g, ok := row(size.Number); ok && size.Gauge == quantity.AWG {
		return g.nec / kft / warming(75), nil
	}
	mm2, err := Area(size)
	if err != nil {
		return 0, err
	}
	return lay * Resistivity / mm2, nil
}
