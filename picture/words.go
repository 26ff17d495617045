package picture

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	q "ampstead/quantity"
)

// volts writes a set-point as a device shows it: two or three decimals below
// 10 V, one or two above.
func volts(v float64) string {
	least, finest := 1, 100.0
	if math.Abs(v) < 10 {
		least, finest = 2, 1000
	}
	text := strconv.FormatFloat(math.Round(v*finest)/finest, 'f', -1, 64)
	whole, decimals, _ := strings.Cut(text, ".")
	for len(decimals) < least {
		decimals += "0"
	}
	return whole + "." + decimals + " V"
}

// millivolts writes a difference of voltage without its sign.
func millivolts(mv float64) string {
	mv = math.Abs(mv)
	if mv >= 1000 {
		return strconv.FormatFloat(mv/1000, 'f', 2, 64) + " V"
	}
	return strconv.FormatFloat(mv, 'f', 0, 64) + " mV"
}

// listing joins names: "a, b and c".
func listing(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// percent writes a fraction as whole percent.
func percent(fraction float64) string {
	return strconv.FormatFloat(math.Round(100*fraction)+0, 'f', 0, 64) + " %"
}

// short writes a number with one decimal at most.
func short(v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64)
}

// capital starts a text with a capital letter.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// energy writes an amount to three figures: no year is known better.
func energy(wh float64, sys q.System) string { return q.WattHours.Text(figures(wh, 3), sys) }

func watts(w float64, sys q.System) string { return q.Watts.Text(figures(w, 2), sys) }

// degrees writes a temperature in whole degrees.
func degrees(c float64, sys q.System) string {
	unit := q.Celsius.Show(0, sys)
	v, _ := q.Celsius.In(c, unit)
	return tickText(math.Round(v), 1) + " " + unit
}

// figures rounds to a number of significant figures.
func figures(v float64, n int) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	scale := math.Pow(10, float64(n)-math.Ceil(math.Log10(math.Abs(v))))
	return math.Round(v*scale) / scale
}

// charge writes a state of charge; a bank drawn below its cells' lower limit is
// past empty.
func charge(fraction float64) string {
	if fraction < -0.0005 {
		return "past empty"
	}
	return percent(fraction)
}
