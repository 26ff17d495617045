package sheet

import (
	"fmt"
	"math"
	"strconv"

	"ampstead/fit"
	q "ampstead/quantity"
)

// measure shows a value in the unit that suits it; small voltages read better
// in millivolts.
func measure(d *q.Dimension, v float64, sys q.System) string {
	if d == q.Volts && v != 0 && math.Abs(v) < 0.1 {
		return d.Fixed(v, "mV", places(v*1e3, 0, 1))
	}
	return d.Text(v, sys)
}

// volts shows a voltage with at least the given decimals and as many more, up
// to three, as the value needs.
func volts(v float64, decimals int) string {
	return q.Volts.Fixed(v, "V", places(v, decimals, 3))
}

// bare shows a cell's voltage for a column whose head names the unit.
func bare(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

// millivolts shows a margin given in mV.
func millivolts(mv float64) string {
	text := strconv.FormatFloat(mv, 'f', 0, 64)
	if text == "-0" {
		text = "0"
	}
	return text + " mV"
}

func percent(fraction float64) string {
	return strconv.FormatFloat(fraction*100, 'f', 0, 64) + " %"
}

// places returns how many decimals v needs, between low and high.
func places(v float64, low, high int) int {
	for n := low; n < high; n++ {
		scaled := v * math.Pow10(n)
		if math.Abs(scaled-math.Round(scaled)) < 0.5*math.Pow10(n-high) {
			return n
		}
	}
	return high
}

// setting shows the value of a setting: a number in its dimension, or a word
// such as "off". step is the finest step of the device in V, 0 when not known.
func setting(v any, d *q.Dimension, unit string, step float64, sys q.System) string {
	switch v := v.(type) {
	case nil:
		return "not given"
	case string:
		return v
	case float64:
		return dimensioned(v, d, unit, step, sys)
	}
	return fmt.Sprint(v)
}

func dimensioned(v float64, d *q.Dimension, unit string, step float64, sys q.System) string {
	if d == nil {
		d = dimensionOf(unit)
	}
	switch {
	case d == nil:
		return strconv.FormatFloat(v, 'g', 6, 64) + " " + unit
	case d == q.Volts && math.Abs(v) >= 0.1:
		return volts(v, stepPlaces(v, step))
	}
	return measure(d, v, sys)
}

// stepPlaces returns the decimals a device shows: those of its step, or two for
// a cell and one for a bank when the step is not known.
func stepPlaces(v, step float64) int {
	switch {
	case step > 0:
		return places(step, 0, 3)
	case v < 6:
		return 2
	}
	return 1
}

func dimensionOf(unit string) *q.Dimension {
	for _, d := range q.All() {
		if d.Base == unit && unit != "" {
			return d
		}
	}
	return nil
}

// Value shows a value of a setting, its recommended or today's, as every output
// does: "49.0 V", "60 min", "off".
func Value(s fit.Setting, v any, sys q.System) string { return setting(v, s.Dim, s.Unit, 0, sys) }
