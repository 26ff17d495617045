package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"ampstead/choose"
	"ampstead/life"
	q "ampstead/quantity"
)

// The two ends of a battery's life.
const (
	capacityEnd = "by capacity"
	functionEnd = "by function"
)

// open reports whether an end of a battery lies beyond what was followed; which is
// "low", "middle" or "high".
func open(c *choose.Candidate, end, which string) bool {
	return c.Life != nil && slices.ContainsFunc(c.Life.Beyond, func(s string) bool { return strings.HasPrefix(s, end+", "+which+":") })
}

// years writes a time of life; open ones are only known to be longer.
func years(v float64, open bool) string {
	text := yearsNumber(v)
	if open {
		return "over " + whole(math.Floor(v+1e-9))
	}
	return text
}

func yearsNumber(v float64) string {
	switch {
	case !(v > 0):
		return "0"
	case v < 9.95:
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return whole(v)
}

// lifeText is the middle of a battery's end.
func lifeText(c *choose.Candidate, end string) string {
	middle, _, _ := lifeBand(c, end)
	return years(middle, open(c, end, "middle"))
}

// lifeRange is from its least to its most.
func lifeRange(c *choose.Candidate, end string) string {
	_, low, high := lifeBand(c, end)
	from, to := years(low, open(c, end, "low")), years(high, open(c, end, "high"))
	if from == to {
		return ""
	}
	return from + " to " + to
}

func lifeBand(c *choose.Candidate, end string) (middle, low, high float64) {
	if end == functionEnd {
		return c.ByFunction, c.Range.FunctionLow, c.Range.FunctionHigh
	}
	return c.ByCapacity, c.Range.CapacityLow, c.Range.CapacityHigh
}

// firstEnd is the end that comes first; of two open ones the capacity's.
func firstEnd(c *choose.Candidate) string {
	byFunction, byCapacity := open(c, functionEnd, "middle"), open(c, capacityEnd, "middle")
	switch {
	case byFunction != byCapacity && byFunction:
		return capacityEnd
	case byFunction != byCapacity:
		return functionEnd
	case c.ByFunction < c.ByCapacity:
		return functionEnd
	}
	return capacityEnd
}

// lifeOf is how long a battery lasts, years, and whether only at least that.
func lifeOf(c *choose.Candidate) (years float64, atLeast bool) {
	end := firstEnd(c)
	v, _, _ := lifeBand(c, end)
	return v, open(c, end, "middle")
}

func bandYears(b life.Band) string {
	if b.High-b.Low < 0.05 {
		return yearsNumber(b.Middle)
	}
	return yearsNumber(b.Middle) + " (" + yearsNumber(b.Low) + " to " + yearsNumber(b.High) + ")"
}

// hoursOf writes hours of a year, none as a number too.
func hoursOf(h float64) string { return whole(math.Max(0, h)) + " h" }

// money writes an amount; a dash when it is not known.
func money(amount float64, currency string, decimals int) string {
	if !(amount > 0) {
		return "–"
	}
	return strings.TrimSpace(strconv.FormatFloat(amount, 'f', decimals, 64) + " " + currency)
}

// mass writes kilograms as the reader wants them; a dash when not known.
func mass(kg float64, sys q.System) string {
	if !(kg > 0) {
		return "–"
	}
	unit := q.Kilograms.Show(kg, sys)
	v, _ := q.Kilograms.In(kg, unit)
	return whole(v) + " " + unit
}

// massPer writes kilograms for each kWh.
func massPer(kg float64, sys q.System) string {
	if !(kg > 0) {
		return "–"
	}
	unit := q.Kilograms.Show(kg, sys)
	v, _ := q.Kilograms.In(kg, unit)
	return strconv.FormatFloat(v, 'f', 1, 64) + " " + unit
}

const litresPerCubicFoot = 28.316846592 // by definition of the foot

func volume(litres float64, sys q.System) string {
	switch {
	case !(litres > 0):
		return "–"
	case sys == q.US:
		return strconv.FormatFloat(litres/litresPerCubicFoot, 'f', 2, 64) + " ft³"
	}
	return strconv.FormatFloat(litres, 'f', asOne(litres < 20), 64) + " l"
}
