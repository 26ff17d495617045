package benchlog

import "math"

// timeUnit gives a column of numbers its unit of time where the header says
// none, from their size and their usual step.
func timeUnit(c *column) {
	if c.unit.dimension == seconds {
		return
	}
	c.unit = units["s"]
	if u, ok := sinceEpoch(c.s); ok {
		c.unit = u
		return
	}
	switch step := c.s.step; {
	case c.s.whole && step >= 100 && math.Mod(step, 60) != 0:
		c.unit = units["ms"] // 100, 500, 1000 to a row; 300 and 600 are minutes in seconds
	case step < 0.02 && isRound(step*60):
		c.unit = units["min"]
	case step < 0.02 && isRound(step*3600):
		c.unit = units["h"]
	case step < 1 && !isWhole(step*100) && isRound(step*60):
		c.unit = units["min"]
	}
}

// sinceEpoch knows counts since 1970 and days since 1900 by their size.
func sinceEpoch(s stats) (unit, bool) {
	switch m := s.min; {
	case m > 5e8 && m < 5e9:
		return unit{"s since 1970", seconds, 1, 0}, true
	case m > 5e11 && m < 5e12:
		return unit{"ms since 1970", seconds, 1e-3, 0}, true
	case m > 5e14 && m < 5e15:
		return unit{"µs since 1970", seconds, 1e-6, 0}, true
	case m > 5e17 && m < 5e18:
		return unit{"ns since 1970", seconds, 1e-9, 0}, true
	case m > 30000 && s.max < 70000 && s.step < 0.05 && !s.whole:
		return unit{"days since 1900", seconds, 86400, 0}, true
	}
	return unit{}, false
}

// isRound reports whether x is a whole number of at least 1 within 1 %.
func isRound(x float64) bool { return x > 0.95 && math.Abs(x-math.Round(x)) < 0.01*x && x < 3700 }

func isWhole(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-6 }
