package picture

import (
	"math"
	"strconv"
	"strings"
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
