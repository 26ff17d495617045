package quantity

import (
	"math"
	"strconv"
	"strings"
)

// maxDecimals bounds what is shown of very small values; what is smaller than
// the last of them is shown as 0.
const maxDecimals = 6

// Text shows v (in the base unit) in the unit of the system that suits its
// size, with four significant digits (more where a dimension needs them) and
// no trailing zeros. Parse reads it back to within half of the last digit.
func (d *Dimension) Text(v float64, s System) string {
	unit := d.Show(v, s)
	shown, _ := d.In(v, unit)
	return join(digits(shown, d.figures), unit)
}

// Show returns the unit that Text chooses for v.
func (d *Dimension) Show(v float64, s System) string {
	if v < 0 && d.below != "" {
		return d.below
	}
	steps := d.metric
	if s == US && d.us != nil {
		steps = d.us
	}
	if v == 0 && (len(steps) == 0 || contains(steps, d.Base)) {
		return d.Base
	}
	unit := d.Base
	for _, st := range steps {
		if math.Abs(v) >= st.from || st.from == 0 {
			unit = st.unit
		}
	}
	return unit
}

func contains(steps []step, unit string) bool {
	for _, st := range steps {
		if st.unit == unit {
			return true
		}
	}
	return false
}

// Fixed shows v in the named unit (the base unit when it is not of this
// dimension) with the given number of decimals: for columns of numbers that
// must align.
func (d *Dimension) Fixed(v float64, unit string, decimals int) string {
	shown, ok := d.In(v, unit)
	if !ok {
		unit = d.Base
		shown, _ = d.In(v, unit)
	}
	return join(unsigned(strconv.FormatFloat(shown, 'f', decimals, 64)), unit)
}

func join(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// digits shows v with the given significant digits (0 means 4) and no zeros at
// the end. All digits before the point are shown.
func digits(v float64, figures int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	if figures == 0 {
		figures = 4
	}
	text := strconv.FormatFloat(v, 'f', decimalsFor(v, figures), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return unsigned(text)
}

func decimalsFor(v float64, figures int) int {
	if v == 0 {
		return 0
	}
	lead := int(math.Floor(math.Log10(math.Abs(v))))
	return max(0, min(figures-1-lead, maxDecimals))
}

// unsigned drops the minus of a number that was rounded to zero.
func unsigned(text string) string {
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}
