package keep

import (
	"math"
	"strconv"
)

// scaled guesses at a lost point or a wrong unit: 3862 for 3.862, 386 for 3.86,
// 38.62 for 3.862.
func (a *asker) scaled(v float64) string {
	for _, factor := range []float64{1000, 100, 10, 0.1, 0.01} {
		if a.fits(v / factor) {
			return short(v / factor)
		}
	}
	return ""
}

// swapped guesses at two neighbouring digits exchanged: 3.68 for 3.86.
func (a *asker) swapped(v, others float64) string {
	digits := []byte(short(v))
	best, apart := "", swapV
	for k := 0; k+1 < len(digits); k++ {
		j := k + 1
		if digits[j] == '.' {
			j++
		}
		if digits[k] == '.' || j >= len(digits) {
			continue
		}
		try := append([]byte(nil), digits...)
		try[k], try[j] = try[j], try[k]
		value, err := strconv.ParseFloat(string(try), 64)
		if err == nil && math.Abs(value-others) <= apart {
			best, apart = string(try), math.Abs(value-others)
		}
	}
	return best
}

// bankMeant guesses at a lost point or exchanged digits.
func (a *asker) bankMeant(v float64, good func(float64) bool) string {
	for _, factor := range []float64{1000, 100, 10, 0.1} {
		if good(v / factor) {
			return short(v / factor)
		}
	}
	text := []byte(short(v))
	if len(text) > 1 && text[1] != '.' {
		text[0], text[1] = text[1], text[0]
		if x, err := strconv.ParseFloat(string(text), 64); err == nil && good(x) {
			return string(text)
		}
	}
	return ""
}

// short writes a number with the digits it has, as it would be typed.
func short(v float64) string {
	if !finite(v) {
		return "no number"
	}
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
