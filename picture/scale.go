package picture

import (
	"math"
	"strconv"
)

// step returns the smallest of 1, 2, 5, 10 ... times a power of ten that is at
// least least.
func step(least float64) float64 {
	if !(least > 0) || math.IsInf(least, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// ticks lists the multiples of step within [low, high].
func ticks(low, high, step float64) []float64 {
	var list []float64
	for i := math.Ceil(low/step - 1e-9); i*step <= high+step*1e-9 && len(list) < 200; i++ {
		list = append(list, i*step+0) // never -0
	}
	return list
}

// tickText writes a tick with as many decimals as its step has.
func tickText(v, step float64) string {
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if v == 0 || text == "-0" {
		return strconv.FormatFloat(0, 'f', decimals, 64)
	}
	return text
}

// linear maps values onto pixels along a straight scale.
type linear struct{ v0, v1, p0, p1 float64 }

func (l linear) at(v float64) float64 {
	return l.p0 + (v-l.v0)/(l.v1-l.v0)*(l.p1-l.p0)
}

// band is one unbroken part of a vertical scale, highest value at its top.
type band struct{ low, high, top, bottom float64 }

func (b band) y(v float64) float64 {
	return linear{b.high, b.low, b.top, b.bottom}.at(math.Max(b.low, math.Min(v, b.high)))
}

func (b band) holds(v float64) bool { return v >= b.low-1e-12 && v <= b.high+1e-12 }
