package benchlog

import "math"

// byBehaviour gives roles that no name told, from what the values do: time
// runs on, cells lie within a cell's voltages, the whole is about their sum, a
// current changes sign or jumps between steady values.
func byBehaviour(list []column) {
	if len(with(list, Time)) == 0 {
		guessTime(list)
	}
	named := func(role Role) bool { return len(with(list, role)) > 0 }
	if !named(GroupV) && !namedGroups(list) {
		guessGroups(list)
	}
	if !named(Current) && !guessCounted(list) {
		guessCurrent(list)
	}
	if !named(Voltage) {
		guessVoltage(list)
	}
	if !named(Temperature) {
		guessTemperatures(list)
	}
}

// namedGroups reports whether the header names voltages of groups, or a
// voltage at all where nothing is left to guess from.
func namedGroups(list []column) bool {
	for _, c := range with(list, Voltage) {
		if c.m.number >= 0 || c.m.tags&aGroup != 0 {
			return true
		}
	}
	return false
}

// open returns columns of numbers of which neither a name nor the options say
// anything.
func open(list []column) []*column {
	var found []*column
	for i := range list {
		c := &list[i]
		if c.role == Ignored && !c.fixed && c.m.tags == 0 && c.m.unit.symbol == "" && c.s.numeric() && c.s.numbers*2 > len(c.s.values) {
			found = append(found, c)
		}
	}
	return found
}

func (c *column) guess(role Role) { c.role, c.guessed = role, true }

// guessTime takes columns of dates and clocks, or else the column of numbers
// that rises most evenly; one that only counts rows comes last.
func guessTime(list []column) {
	for i := range list {
		if c := &list[i]; c.role == Ignored && !c.fixed && c.s.timely() {
			c.guess(Time)
		}
	}
	if len(with(list, Time)) > 0 {
		return
	}
	var best *column
	top := 0.6
	for _, c := range open(list) {
		if score := runsOn(c.s) - 0.001*float64(c.index); score > top {
			top, best = score, c
		}
	}
	if best != nil {
		best.guess(Time)
	}
}

// runsOn is near 1 for a column that rises from row to row, less for one that
// counts 1, 2, 3 or falls at times.
func runsOn(s stats) float64 {
	n := float64(max(1, s.numbers-1))
	score := (float64(s.rises) - 10*float64(s.falls)) / n
	if s.falls > 0 && s.falls*20 < s.rises {
		score = float64(s.rises)/n - 0.1 // restarts
	}
	even := 0
	last := math.NaN()
	for _, v := range s.values {
		if d := v - last; d > 0 && d < 3*s.step && d > s.step/3 {
			even++
		}
		last = v
	}
	score *= 0.5 + 0.5*float64(even)/n
	if s.whole && s.step == 1 && (s.min == 0 || s.min == 1) && s.max-s.min <= n+1 {
		score -= 0.15
	}
	if s.min > 1 && s.max < 70 && s.max < 3*s.min {
		score -= 0.2 // a voltage while charging, a temperature while warming
	}
	return score
}
