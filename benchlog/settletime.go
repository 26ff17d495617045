package benchlog

import (
	"math"
	"strings"
)

// orderWords says an order of date, for the layout.
var orderWords = map[order]string{yearFirst: "year first", dayFirst: "day before month", monthFirst: "month before day"}

// findOrder tells the order of the dates of a column from all of its dates in
// the head: the one in which every date exists and time runs best.
func findOrder(dates []moment, dotted, halves bool) (o order, unsure bool) {
	if len(dates) == 0 || dates[0].named || dates[0].date[0] >= 1000 {
		return yearFirst, false
	}
	preferred := dayFirst
	if halves && !dotted {
		preferred = monthFirst
	}
	best, valid := math.Inf(1), 0
	for _, try := range []order{preferred, dayFirst + monthFirst - preferred, yearFirst} {
		cost := orderCost(dates, try)
		if math.IsInf(cost, 1) {
			continue
		}
		if try != yearFirst {
			valid++
		}
		if cost < best {
			best, o = cost, try
		}
	}
	return o, valid > 1 && best == 0
}

// orderCost is the number of days the dates run on, with those backwards
// counting much; infinite where a date would not exist.
func orderCost(dates []moment, o order) float64 {
	cost, last := 0.0, 0
	for i := range dates {
		n, ok := dates[i].day(o)
		if !ok {
			return math.Inf(1)
		}
		if i > 0 {
			step := float64(n - last)
			cost += max(step, -1000*step)
		}
		last = n
	}
	return cost
}

// settleTime chooses the column of time, or the pair of date and clock.
func settleTime(list []column, rows [][][]byte) timeForm {
	form := timeForm{date: -1, clock: -1, scale: 1}
	found := with(list, Time)
	best := keepBest(found, timeScore)
	if best == nil {
		return form
	}
	form.name, form.field = best.m.name, best.index
	if best.s.numeric() {
		form.numeric = true
		timeUnit(best)
		form.scale, form.words = best.unit.scale, best.unit.symbol
		return form
	}
	form.pair(best, found)
	form.dated = best.s.moments+best.s.dates > 0 || form.date >= 0
	form.ofDay = !form.dated
	form.readHead(rows)
	return form
}

// timeScore ranks columns that could be the time: one number that runs on
// through the file is best, then date and clock.
func timeScore(c *column) float64 {
	score := 3.5
	switch {
	case c.s.numeric():
		score = 4
	case c.s.clocks > c.s.n/2:
		score = 3.2
	case c.s.dates > c.s.n/2:
		score = 0.5
	}
	if c.s.numeric() && c.s.falls > 0 {
		score--
	}
	if c.s.numeric() && c.s.constant() && len(c.s.values) > 1 {
		score -= 3
	}
	if c.m.tags&(aStep|aCycle) != 0 {
		score -= 2
	}
	if c.m.tags&aPack != 0 {
		score += 0.4
	}
	return score
}

// pair finds the clock for a date, or the date for a clock.
func (t *timeForm) pair(best *column, found []*column) {
	best.unit = unit{symbol: "date and clock"}
	if best.s.moments > 0 {
		return
	}
	best.unit.symbol = "clock"
	for _, c := range found {
		if c == best || c.s.numeric() || (c.s.dates > 0) == (best.s.dates > 0) || c.s.moments > 0 || c.m.tags&aStep != 0 {
			continue
		}
		c.role = Time
		date, clock := c, best
		if best.s.dates > 0 {
			date, clock = best, c
		}
		date.unit.symbol, clock.unit.symbol = "date", "clock"
		t.date, t.clock = date.index, clock.index
		return
	}
}

// readHead learns from the head how date and clock are written.
func (t *timeForm) readHead(rows [][][]byte) {
	var dates []moment
	halves, two, high, zero := false, 0, false, false
	dotted := false
	for i, row := range rows {
		at := t.field
		if t.date >= 0 {
			at = t.date
			c, _ := parseMoment(fieldAt(row, t.clock))
			two += boolTo(c.groups == 2)
			halves = halves || hasHalf(fieldAt(row, t.clock))
		}
		f := fieldAt(row, at)
		m, ok := parseMoment(f)
		if !ok {
			continue
		}
		if m.hasDate {
			dates = append(dates, m)
			dotted = dotted || strings.Contains(string(f[:min(4, len(f))]), ".")
		}
		two += boolTo(m.groups == 2)
		high = high || m.groups == 2 && m.clock >= 24*3600
		zero = zero || i == 0 && m.clock == 0
		halves = halves || hasHalf(f)
	}
	t.minutes = !t.dated && two > 0 && (high || zero)
	t.words = "clock"
	if t.minutes {
		t.words = "min:s"
	}
	if t.dated {
		t.order, t.unsure = findOrder(dates, dotted, halves)
		t.words = "date and clock"
		if t.order != yearFirst || len(dates) > 0 && dates[0].date[0] < 1000 {
			t.words += ", " + orderWords[t.order]
		}
	}
}

func hasHalf(f []byte) bool {
	n := len(f)
	return n > 2 && f[n-1]|0x20 == 'm' || n > 3 && f[n-1] == '.' && f[n-2]|0x20 == 'm'
}

func fieldAt(row [][]byte, i int) []byte {
	if i < 0 || i >= len(row) {
		return nil
	}
	return row[i]
}
