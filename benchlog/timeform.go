package benchlog

import (
	"fmt"
	"math"
)

// timeForm is how the time of a row is written.
type timeForm struct {
	numeric     bool
	field       int     // of the number, or of date and clock together
	date, clock int     // fields of a date and a clock apart, else -1
	scale       float64 // s
	order       order
	unsure      bool // whether the day or the month comes first
	minutes     bool // a clock of two numbers is minutes and seconds
	ofDay       bool // a clock without a date: it may pass midnight
	dated       bool
	perRow      float64 // s; there is no time in the file
	words       string  // how it is said in the layout
	last        moment  // the last date, while unsure
	shift       float64 // s; keeps time going when the order is found late
	name        string
}

// seconds reads the time of a row, in s from any zero.
func (t *timeForm) seconds(fields [][]byte) (s float64, why string) {
	if t.date < 0 {
		return t.moment(fields[t.field], nil)
	}
	return t.moment(fields[t.date], fields[t.clock])
}

// moment reads date and clock from one field or two.
func (t *timeForm) moment(field, clock []byte) (s float64, why string) {
	if absent(field) {
		return math.NaN(), ""
	}
	m, ok := parseMoment(field)
	if ok && clock != nil {
		var c moment
		if absent(clock) {
			return math.NaN(), ""
		}
		if c, ok = parseMoment(clock); ok {
			m.clock, m.zone, m.groups = c.clock, c.zone, c.groups
		}
		field = clock
	}
	if !ok || m.hasDate != t.dated {
		return 0, fmt.Sprintf("%s is %q, not a time as in the other rows", t.name, beginning(field))
	}
	if m.groups == 2 && t.minutes {
		m.clock /= 60
	}
	if !t.dated {
		return m.clock, ""
	}
	if t.unsure {
		t.settle(&m)
	}
	day, ok := m.day(t.order)
	if !ok {
		return 0, fmt.Sprintf("%s is %q, which is no date", t.name, beginning(field))
	}
	return float64(day)*86400 + m.clock - m.zone + t.shift, ""
}

// settle decides between day and month first when the date changes for the
// first time: the reading with the smaller step forward is right.
func (t *timeForm) settle(m *moment) {
	if t.last.hasDate && t.last.date != m.date {
		was, _ := t.last.day(t.order)
		best := math.Inf(1)
		for _, o := range []order{dayFirst, monthFirst} {
			from, ok1 := t.last.day(o)
			to, ok2 := m.day(o)
			if step := float64(to - from); ok1 && ok2 && step > 0 && step < best {
				best, t.order = step, o
			}
		}
		now, _ := t.last.day(t.order)
		t.shift = float64(was-now) * 86400
		t.unsure = false
	}
	t.last = *m
}
