package sun

import "math"

// Instant is universal time (UT1, taken as UTC) in days since 1 January 2000,
// 12:00. It resolves a microsecond within two centuries.
type Instant float64

// j2000 is the Julian day of Instant 0.
const j2000 = 2451545.0

// At returns the instant of a date of the Gregorian calendar, at seconds after
// midnight UT. A day or second beyond its month or day counts on.
func At(year, month, day int, seconds float64) Instant {
	return Instant(float64(dayNumber(year, month, day)) - 0.5 + seconds/86400)
}

// JulianDay returns the Julian day of the instant, in days.
func (t Instant) JulianDay() float64 { return float64(t) + j2000 }

// Add returns the instant some seconds later.
func (t Instant) Add(seconds float64) Instant { return t + Instant(seconds/86400) }

// Date returns the date, and the seconds since midnight UT.
func (t Instant) Date() (year, month, day int, seconds float64) {
	whole := math.Floor(float64(t) + 0.5)
	year, month, day = date(int(whole))
	return year, month, day, (float64(t) + 0.5 - whole) * 86400
}

// DayOfYear returns the number of the UT day in its year, 1 on 1 January.
func (t Instant) DayOfYear() int {
	whole := int(math.Floor(float64(t) + 0.5))
	year, _, _ := date(whole)
	return whole - dayNumber(year, 1, 1) + 1
}

// yearZero is the number of days from 1 March of year 0 to 1 January 2000.
const yearZero = 730425

// dayNumber counts days from 1 January 2000. Years start in March here, so that
// the leap day comes last.
func dayNumber(year, month, day int) int {
	if month < 3 {
		year, month = year-1, month+12
	}
	return startOf(year) + (153*(month-3)+2)/5 + day - 1 - yearZero
}

// startOf counts days from 1 March of year 0 to 1 March of the year.
func startOf(year int) int {
	return 365*year + floorDiv(year, 4) - floorDiv(year, 100) + floorDiv(year, 400)
}

func floorDiv(a, b int) int {
	if a < 0 {
		return -((b - 1 - a) / b)
	}
	return a / b
}

// date is the reverse of dayNumber.
func date(number int) (year, month, day int) {
	z := number + yearZero
	year = int(math.Floor((float64(z) + 0.5) / 365.2425))
	for startOf(year) > z {
		year--
	}
	for startOf(year+1) <= z {
		year++
	}
	n := z - startOf(year)
	m := (5*n + 2) / 153
	day, month = n-(153*m+2)/5+1, m+3
	if month > 12 {
		month, year = month-12, year+1
	}
	return year, month, day
}
