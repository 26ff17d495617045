package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
)

// Drop returns the voltage in V lost on the way out and back through two
// conductors of ohmPerM, each lengthM long, at the given current in A.
func Drop(ohmPerM, lengthM, amperes float64) float64 { return 2 * lengthM * ohmPerM * amperes }

// trade is the constant of the marine formula: copper at 29 °C, Ω·cmil/ft.
const trade = 10.75

// AreaForDrop returns the area in circular mils that keeps the loss on the loop
// of two conductors, each lengthM long, to dropV at the given current:
//
//	CM = 10.75 · I · L / E    (ABYC E-11; L out and back in ft)
func AreaForDrop(lengthM, amperes, dropV float64) float64 {
	const foot = 0.3048
	return trade * amperes * (2 * lengthM / foot) / dropV
}

// TradeDrop is the voltage in V lost on the loop by that formula, for the copper
// in a size. Errors as Area and Resistance.
func TradeDrop(size quantity.Size, lengthM, amperes float64) (float64, error) {
	mm2, err := Copper(size)
	if err != nil {
		return 0, err
	}
	return AreaForDrop(lengthM, amperes, 1) / (mm2 / Mm2PerCmil), nil
}

// Sizes lists the sizes of a gauge system on sale, thinnest first.
func Sizes(g quantity.Gauge) []quantity.Size {
	var list []quantity.Size
	for _, s := range sizes(g) {
		list = append(list, s.size)
	}
	return list
}

// Next returns the smallest listed size of a gauge system whose copper is at
// least cmil circular mils. A metric size counts with the copper its resistance
// proves, about a tenth less than its name. Errors: figure.ErrRange when even
// the largest is too small.
func Next(g quantity.Gauge, cmil float64) (quantity.Size, error) {
	const rounding = 1e-9
	for _, s := range sizes(g) {
		if s.copperCmil >= cmil*(1-rounding) {
			return s.size, nil
		}
	}
	return quantity.Size{}, fmt.Errorf("%.6g cmil is more than the largest %s size listed: shorten the run, or share the current between cables: %w",
		cmil, g, figure.ErrRange)
}

// sized is a size on sale and the copper in it.
type sized struct {
	size       quantity.Size
	copperCmil float64
}

// sizes lists the sizes of a gauge system, rising.
func sizes(g quantity.Gauge) []sized {
	var list []sized
	if g == quantity.MM2 {
		for _, p := range class5 {
			copper := Resistivity / (p.y / 1000)
			list = append(list, sized{quantity.Size{Gauge: g, Number: p.x}, copper / Mm2PerCmil})
		}
		return list
	}
	for _, r := range gauges {
		area := awgArea(r.number) / Mm2PerCmil
		if g == quantity.SAE {
			area = r.saeCmil
		}
		if area > 0 {
			list = append(list, sized{quantity.Size{Gauge: g, Number: r.number}, area})
		}
	}
	return list
}
