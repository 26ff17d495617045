package benchlog

import "math"

const (
	blocks       = 40   // the head is cut into so many to compare a counter with a current
	sureCounter  = 0.97 // correlation above which one counts the other
	maxPaired    = 64   // columns that are compared with each other
	leapsOfReset = 50.0 // usual steps: more is a counter set back
)

// guessCounted looks for two columns of which one counts what the other is:
// then the one is the current and the other its amp-hours. It needs the time.
func guessCounted(list []column) bool {
	times := with(list, Time)
	if len(times) != 1 || !times[0].s.numeric() {
		return false
	}
	timeUnit(times[0])
	var current, counter *column
	top := sureCounter
	columns := open(list)
	columns = columns[:min(len(columns), maxPaired)]
	for _, x := range columns {
		if x.s.constant() && x.s.min == 0 || runsOn(x.s) > 0.6 && x.s.leap < 3*x.s.step {
			continue
		}
		for _, y := range columns {
			if x == y {
				continue
			}
			if r := counts(times[0].s.values, x.s.values, y.s); r > top {
				top, current, counter = r, x, y
			}
		}
	}
	if current == nil {
		return false
	}
	current.guess(Current)
	if ratio := perAmpHour(times[0], current.s, counter.s); ratio > 0.9 && ratio < 1.1 {
		counter.guess(Charge)
	}
	return true
}

// perAmpHour is how much the counter counted, both ways, to an amp-hour.
func perAmpHour(time *column, x, y stats) float64 {
	counted, sum := 0.0, 0.0
	for i := 1; i < len(x.values); i++ {
		dt, dy := time.s.values[i]-time.s.values[i-1], y.values[i]-y.values[i-1]
		if mean := (x.values[i] + x.values[i-1]) / 2; dt > 0 && !math.IsNaN(mean+dy) && math.Abs(dy) <= leapsOfReset*y.step {
			counted += math.Abs(dy)
			sum += math.Abs(mean) * dt * time.unit.scale / 3600
		}
	}
	return counted / sum
}

// counts is the correlation between the integral of x over time and the change
// of the counter y, block by block.
func counts(time, x []float64, y stats) float64 {
	integrals, changes := make([]float64, blocks), make([]float64, blocks)
	n := len(time)
	if n < 2*blocks {
		return 0
	}
	for i := 1; i < n; i++ {
		dt, dy := time[i]-time[i-1], y.values[i]-y.values[i-1]
		if !(dt > 0) || math.IsNaN(x[i]+x[i-1]+dy) || math.Abs(dy) > leapsOfReset*y.step {
			continue
		}
		b := i * blocks / n
		integrals[b] += dt * (x[i] + x[i-1]) / 2
		changes[b] += dy
	}
	return math.Abs(correlation(integrals, changes))
}
