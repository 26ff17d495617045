package ageing

// horizon is how many years ahead YearsTo looks.
const horizon = 100

// YearsTo returns when capacity falls to a fraction of new if a year repeats
// itself, in years from now; not reached within 100 years, or by a year that
// takes no time or nothing away, gives 100 and false. The year is a list of
// stresses in order; its length is the sum of their days.
func (l Life) YearsTo(capacity float64, year []Stress) (years float64, reached bool) {
	if l.Capacity() <= capacity {
		return 0, true
	}
	steps, whole, days := l.model.steps(year)
	if days <= 0 {
		return horizon, false
	}
	for n := 1; float64(n)*days/daysAYear <= horizon+1; n++ {
		next := l
		next.past = l.past.plus(whole, 1)
		if next.Capacity() > capacity {
			l = next
			continue
		}
		years = (float64(n-1)*days + l.daysTo(capacity, year, steps)) / daysAYear
		return min(years, horizon), years <= horizon
	}
	return horizon, false
}

// steps are what each stress of a year adds, their sum and its days.
func (m *Model) steps(year []Stress) (steps []amounts, whole amounts, days float64) {
	for _, s := range year {
		s = s.whole()
		step := m.law.add(s)
		steps = append(steps, step)
		whole = whole.plus(step, 1)
		days += s.Days
	}
	return steps, whole, days
}

// daysTo finds the moment within a year that is known to reach the capacity.
func (l Life) daysTo(capacity float64, year []Stress, steps []amounts) (days float64) {
	for k, step := range steps {
		next := l
		next.past = l.past.plus(step, 1)
		if next.Capacity() > capacity {
			l, days = next, days+year[k].Days
			continue
		}
		return days + year[k].Days*l.shareOf(step, capacity)
	}
	return days
}

// shareOf is how much of a step it takes.
func (l Life) shareOf(step amounts, capacity float64) float64 {
	low, high := 0.0, 1.0
	for range 50 {
		mid := (low + high) / 2
		next := l
		next.past = l.past.plus(step, mid)
		if next.Capacity() > capacity {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
