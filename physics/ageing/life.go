package ageing

import "math"

// amounts are how far each part has gone. A part whose loss is k·x^z under
// constant stress goes by k^(1/z)·x, so that its loss is amount^z: amounts of
// changing stress just add up, which is virtual time without its round trip.
type amounts struct{ calendar, cycling, calendarRes, cyclingRes float64 }

func (a amounts) plus(b amounts, share float64) amounts {
	return amounts{a.calendar + share*b.calendar, a.cycling + share*b.cycling,
		a.calendarRes + share*b.calendarRes, a.cyclingRes + share*b.cyclingRes}
}

func (a amounts) times(f float64) amounts { return amounts{}.plus(a, f) }

// law is a model's arithmetic.
type law interface {
	add(s Stress) amounts                                 // what a stress adds
	lost(a amounts) (calendar, cycling, total float64)    // fraction of capacity
	grown(a amounts) (calendar, cycling float64, ok bool) // of resistance, factor less 1
}

// Life is one cell growing old by a model. It is a value: a copy goes its own
// way. It takes no memory for its past.
type Life struct {
	model *Model
	past  amounts
	days  float64
	basis string
	seen  [axes]span
}

// Start is a new cell.
func (m *Model) Start() Life { return Life{model: m, basis: "new"} }

// Add goes through a stress. Splitting a constant one changes nothing.
func (l *Life) Add(s Stress) {
	s = s.whole()
	l.days += s.Days
	l.look(&s)
	l.past = l.past.plus(l.model.law.add(s), 1)
}

// Capacity is what is left, as a fraction of new.
func (l *Life) Capacity() float64 {
	_, _, total := l.model.law.lost(l.past)
	return max(0, 1-l.model.scale*total)
}

// Lost returns how much of the loss is the calendar's and the cycles', as
// fractions of new. For lead-acid the greater of the two is the loss, for the
// others their sum.
func (l *Life) Lost() (calendar, cycling float64) {
	calendar, cycling, _ = l.model.law.lost(l.past)
	return l.model.scale * calendar, l.model.scale * cycling
}

// Resistance is the factor on the resistance when new; not ok for a model that
// says nothing of it.
func (l *Life) Resistance() (factor float64, ok bool) {
	calendar, cycling, ok := l.model.law.grown(l.past)
	return 1 + l.model.scale*(calendar+cycling), ok
}

// Basis says where the life began: "new", "measured" or "stated use".
func (l *Life) Basis() string { return l.basis }

// powers is the arithmetic of losses that go with a power of time or throughput.
type powers struct {
	rate      func(s Stress) amounts
	z         amounts // exponents
	resistive bool
}

func (p powers) add(s Stress) amounts { return p.rate(s) }

func (p powers) lost(a amounts) (calendar, cycling, total float64) {
	calendar, cycling = raise(a.calendar, p.z.calendar), raise(a.cycling, p.z.cycling)
	return calendar, cycling, calendar + cycling
}

func (p powers) grown(a amounts) (calendar, cycling float64, ok bool) {
	if !p.resistive {
		return 0, 0, false
	}
	return raise(a.calendarRes, p.z.calendarRes), raise(a.cyclingRes, p.z.cyclingRes), true
}

// raise is x^z, by roots where there are some.
func raise(x, z float64) float64 {
	switch z {
	case 1:
		return x
	case 0.5:
		return math.Sqrt(x)
	case 0.75:
		root := math.Sqrt(x)
		return root * math.Sqrt(root)
	}
	return math.Pow(x, z)
}
