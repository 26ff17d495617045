package live

import "time"

// Alarm is something beyond a limit, or that nothing is heard.
type Alarm struct {
	Key    string    `json:"alarm"`  // "group high", "group low", "spread", "bank high", "bank low", "hot", "frost", "logbook", "silent WHAT TOPIC"
	Raised bool      `json:"raised"` // false when it has cleared
	What   string    `json:"what"`   // in plain words, with numbers
	At     time.Time `json:"at"`     // when it was raised or cleared
}

// latch raises or clears an alarm once its reason has held for the delay.
type latch struct {
	key     string
	series  string // in which the logbook keeps it
	up      bool
	what    string // the latest reason
	at      time.Time
	against bool // what is seen speaks against how it stands
	since   time.Time
}

// verdict is what a look at the values says of one alarm.
type verdict int

const (
	unknown verdict = iota // nothing fresh to judge by: it stays as it is
	within
	between // inside the limit, not yet far enough to clear
	beyond
)

// judge takes a verdict at a time and reports whether the alarm changed.
func (l *latch) judge(at time.Time, v verdict, what func() string, delay time.Duration) bool {
	if v == unknown {
		l.against = false
		return false
	}
	if v == beyond && l.up {
		l.what = what()
	}
	against := v == beyond && !l.up || v == within && l.up
	if against && !l.against {
		l.since = at
	}
	l.against = against
	if !against || at.Sub(l.since) < delay {
		return false
	}
	l.up, l.against, l.at, l.what = !l.up, false, at, what()
	return true
}

func (l *latch) alarm() Alarm { return Alarm{l.key, l.up, l.what, l.at} }

// over holds a value against an upper limit that clears a little below it.
func over(v, limit, back float64) verdict {
	switch {
	case v > limit:
		return beyond
	case v > limit-back:
		return between
	}
	return within
}

// under holds a value against a lower limit.
func under(v, limit, back float64) verdict { return over(-v, -limit, back) }
