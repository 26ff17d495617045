package quantity

import (
	"math"
	"slices"
)

// Conversion factors are exact by definition where no other note is given:
// 1 in = 0.0254 m, 1 lb = 0.45359237 kg, °F = 9/5 °C + 32 and the International
// Table British thermal unit of 1055.05585262 J (NIST Special Publication 811,
// appendix B; from memory).
const (
	inch       = 0.0254
	foot       = 12 * inch
	mile       = 5280 * foot
	pound      = 0.45359237
	fahrenheit = 5.0 / 9
	btu        = 1055.05585262                             // J
	cmil       = math.Pi / 4 * (inch / 1e3) * (inch / 1e3) // m²
	zeroKelvin = -273.15
)

func u(scale float64, names ...string) Unit { return Unit{Names: names, Scale: scale} }

// both shows the same units in both systems.
func both(d Dimension) *Dimension {
	d.us = d.metric
	return &d
}

// All lists every dimension, in the order a unit is looked up to say what a
// wrongly placed one would have been.
func All() []*Dimension { return slices.Concat(electrical, thermal, extent, weather, shares) }
