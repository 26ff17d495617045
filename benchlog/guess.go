package benchlog

import (
	"math"
	"slices"
)

// guessGroups takes two or more columns within a cell's voltages that move
// together.
func guessGroups(list []column) {
	var found []*column
	for _, c := range open(list) {
		if m := c.s.median; m >= 2 && m <= 4.5 && c.s.min > 0.5 || m >= 2000 && m <= 4500 && c.s.min > 500 {
			found = append(found, c)
		}
	}
	var together []*column
	for _, c := range found {
		if slices.ContainsFunc(found, func(d *column) bool { return d != c && alike(c.s, d.s) }) {
			together = append(together, c)
		}
	}
	numbered := distinct(together) == len(together)
	for i, c := range together {
		c.guess(GroupV)
		if !numbered {
			c.group = i + 1 // in the order of the file
		}
	}
}

// alike reports whether two columns could be groups of one battery: about the
// same size, and moving together when they move.
func alike(a, b stats) bool {
	if math.Abs(a.median-b.median) > 0.2*a.median {
		return false
	}
	if a.max-a.min < 0.01*a.median && b.max-b.min < 0.01*b.median {
		return true
	}
	return correlation(a.values, b.values) > 0.7
}

// correlation of two columns over the rows that have both.
func correlation(x, y []float64) float64 {
	var n, sx, sy float64
	both := func(visit func(a, b float64)) {
		for i := range x {
			if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) {
				visit(x[i], y[i])
			}
		}
	}
	both(func(a, b float64) { n++; sx += a; sy += b })
	var xx, yy, xy float64
	both(func(a, b float64) {
		a -= sx / n
		b -= sy / n
		xx += a * a
		yy += b * b
		xy += a * b
	})
	if xx == 0 || yy == 0 {
		return 0
	}
	return xy / math.Sqrt(xx*yy)
}

// guessCurrent takes the column that has both signs, or that jumps between
// steady values.
func guessCurrent(list []column) {
	var best *column
	top := 0.35
	for _, c := range open(list) {
		if score := jumps(c.s); score > top {
			top, best = score, c
		}
	}
	if best != nil {
		best.guess(Current)
	}
}

// jumps is high for a column like a current: below zero, or mostly steady with
// jumps to other levels. A counter runs on and is none.
func jumps(s stats) float64 {
	n := float64(max(1, s.numbers-1))
	size := math.Max(math.Abs(s.max), math.Abs(s.min))
	if size == 0 || s.constant() && s.min >= 0 {
		return 0.1
	}
	steady, far := 0.0, 0
	last := math.NaN()
	for _, v := range s.values {
		switch d := math.Abs(v - last); {
		case d <= 0.02*size:
			steady++
		case d > 0.3*size:
			far++
		}
		last = v
	}
	score := 0.4 * steady / n
	if s.min < 0 {
		score += 0.6
	}
	if far > 0 {
		score += 0.4
	}
	if s.min > 1.5 && s.max < 5 && s.max < 2.5*s.min {
		score -= 0.3 // a cell's voltage
	}
	if oneWay := math.Abs(float64(s.rises-s.falls)) / n; oneWay > 0.8 {
		score -= 0.6
	}
	return score
}

// guessVoltage takes the column about the sum of the groups, or the one that
// answers the current.
func guessVoltage(list []column) {
	groups := with(list, GroupV)
	sum := 0.0
	for _, g := range groups {
		sum += g.s.median
	}
	current := with(list, Current)
	var best *column
	top := 0.0
	for _, c := range open(list) {
		if score := voltageLike(c.s, sum, groups, current); score > top {
			top, best = score, c
		}
	}
	if best != nil {
		best.guess(Voltage)
	}
}

func voltageLike(s stats, sum float64, groups, current []*column) float64 {
	if s.min <= 0 || s.max > 3*s.median {
		return 0
	}
	if sum > 0 {
		for _, scale := range []float64{1, 1e-3, 1e3} {
			if math.Abs(s.median*scale-sum) < 0.05*sum {
				return 3
			}
		}
		return max(0, correlation(s.values, groups[0].s.values)-0.8)
	}
	score := 0.1
	if s.median >= 2 && s.median <= 4.5 || s.median >= 2000 && s.median <= 60000 {
		score++
	}
	if len(current) > 0 {
		score += math.Abs(correlation(changes(s.values), changes(current[0].s.values)))
	}
	return score
}

func changes(v []float64) []float64 {
	d := make([]float64, len(v))
	for i := 1; i < len(v); i++ {
		d[i] = v[i] - v[i-1]
	}
	return d
}

// guessTemperatures takes what is left of columns that change little by little
// within the temperatures of a battery, in °C.
func guessTemperatures(list []column) {
	if len(with(list, Voltage))+len(with(list, GroupV)) == 0 {
		return
	}
	for _, c := range open(list) {
		if s := c.s; s.median > 5 && s.median < 60 && s.min > -30 && s.max < 90 && s.leap < 3 && s.max-s.min < 50 && !(s.whole && s.constant()) && runsOn(s) < 0.7 && s.values[0] != 0 {
			c.guess(Temperature)
		}
	}
}
