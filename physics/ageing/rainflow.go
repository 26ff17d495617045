package ageing

import (
	"cmp"
	"math"
	"slices"
)

// Cycle is one counted cycle or half cycle of a series.
type Cycle struct {
	Range float64 `json:"range"` // between its two points, never negative
	Mean  float64 `json:"mean"`
	Count float64 `json:"count"` // 1, or 0.5 for a half cycle
	From  float64 `json:"from"`  // the earlier point
	To    float64 `json:"to"`
}

// RangeCount is how often a range was counted.
type RangeCount struct {
	Range float64 `json:"range"`
	Count float64 `json:"count"`
}

// Counter counts the cycles of a series that arrives value by value, by the
// three-point rainflow rule of ASTM E1049-85, 5.4.4. The zero Counter is ready.
//
// It keeps the turning points that no cycle has closed yet. Their ranges fall
// one after the other, so with a Step there are at most (highest - lowest)/Step
// of them; without one a long dying swing can make it grow.
type Counter struct {
	Step    float64   // values are rounded to multiples of it; 0 takes them as they are
	points  []float64 // turning points not yet counted, the starting point first
	pending float64   // the newest value, a turning point if the series turns there
	begun   bool
}

// Add takes the next value and gives the cycles it closes to count. A value that
// is not a number is left out.
func (c *Counter) Add(v float64, count func(Cycle)) {
	if c.Step > 0 {
		v = math.Round(v/c.Step) * c.Step
	}
	switch {
	case math.IsNaN(v) || c.begun && v == c.pending:
		return
	case !c.begun:
		c.begun = true
	case len(c.points) == 0:
		c.points = append(c.points, c.pending)
	case c.turnsAt(v):
		c.close(count)
	}
	c.pending = v
}

// turnsAt reports whether the pending value is a peak or a valley before v.
func (c *Counter) turnsAt(v float64) bool {
	return (c.pending > c.points[len(c.points)-1]) != (v > c.pending)
}

// close takes the pending value as a turning point and counts what it completes.
func (c *Counter) close(count func(Cycle)) {
	c.points = append(c.points, c.pending)
	for len(c.points) >= 3 {
		n := len(c.points)
		newest := math.Abs(c.points[n-1] - c.points[n-2])
		before := math.Abs(c.points[n-2] - c.points[n-3])
		if newest < before {
			return
		}
		if n == 3 {
			count(between(c.points[0], c.points[1], 0.5))
			c.points = slices.Delete(c.points, 0, 1)
			continue
		}
		count(between(c.points[n-3], c.points[n-2], 1))
		c.points = slices.Delete(c.points, n-3, n-1)
	}
}

// Finish takes the series as ended: the ranges left over count as half cycles.
// The Counter is then ready for another series.
func (c *Counter) Finish(count func(Cycle)) {
	if len(c.points) > 0 {
		c.close(count)
	}
	for k := 1; k < len(c.points); k++ {
		count(between(c.points[k-1], c.points[k], 0.5))
	}
	c.points, c.begun = c.points[:0], false
}

func between(from, to, count float64) Cycle {
	return Cycle{Range: math.Abs(to - from), Mean: (from + to) / 2, Count: count, From: from, To: to}
}

// Count counts the cycles of a whole series by the rule of Counter, in the order
// in which they close. Values between turning points do no harm.
func Count(series []float64) []Cycle {
	var cycles []Cycle
	var c Counter
	keep := func(one Cycle) { cycles = append(cycles, one) }
	for _, v := range series {
		c.Add(v, keep)
	}
	c.Finish(keep)
	return cycles
}

// TurningPoints returns the peaks and valleys of a series with its first and
// last value; runs of equal values count once.
func TurningPoints(series []float64) []float64 {
	var points []float64
	for _, v := range series {
		n := len(points)
		switch {
		case math.IsNaN(v) || n > 0 && v == points[n-1]:
		case n >= 2 && (points[n-1] > points[n-2]) == (v > points[n-1]):
			points[n-1] = v
		default:
			points = append(points, v)
		}
	}
	return points
}

// Totals adds the counts of equal ranges, smallest range first. Ranges must be
// equal to the last digit: a Counter with a Step makes them so.
func Totals(cycles []Cycle) []RangeCount {
	byRange := map[float64]float64{}
	for _, c := range cycles {
		byRange[c.Range] += c.Count
	}
	var totals []RangeCount
	for r, n := range byRange {
		totals = append(totals, RangeCount{r, n})
	}
	slices.SortFunc(totals, func(a, b RangeCount) int { return cmp.Compare(a.Range, b.Range) })
	return totals
}
