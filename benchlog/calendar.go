package benchlog

// months in English, German, French and Spanish by their first letters.
var months = []struct {
	stem   string
	number int
}{{"jan", 1}, {"ene", 1}, {"feb", 2}, {"fev", 2}, {"mar", 3}, {"mae", 3}, {"mrz", 3}, {"apr", 4}, {"avr", 4}, {"abr", 4}, {"may", 5}, {"mai", 5},
	{"jun", 6}, {"jul", 7}, {"aug", 8}, {"ago", 8}, {"aou", 8}, {"sep", 9}, {"oct", 10}, {"okt", 10}, {"nov", 11}, {"dec", 12}, {"dez", 12}, {"dic", 12}}

var weekdays = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// stem returns the first three letters in small ones, and how many letters
// there are.
func stem(b []byte) (three [3]byte, length int) {
	for length < len(b) && (b[length]|0x20 >= 'a' && b[length]|0x20 <= 'z' || b[length] >= 0x80) {
		if length < 3 {
			three[length] = b[length] | 0x20
		}
		length++
	}
	return three, length
}

func monthName(b []byte) (number, length int) {
	three, length := stem(b)
	if length < 3 {
		return 0, 0
	}
	for _, m := range months {
		if m.stem == string(three[:]) {
			return m.number, length
		}
	}
	return 0, 0
}

// weekday returns the length of the name of a day at the start with the blank
// behind it.
func weekday(b []byte) int {
	three, length := stem(b)
	if length < 3 {
		return 0
	}
	for _, d := range weekdays {
		if d != string(three[:]) {
			continue
		}
		for length < len(b) && (b[length] == ' ' || b[length] == ',') {
			length++
		}
		return length
	}
	return 0
}

func fullYear(y int) int {
	switch {
	case y >= 100:
		return y
	case y < 70:
		return 2000 + y
	}
	return 1900 + y
}

// dayNumber counts days since 1970-01-01 in the calendar used everywhere
// today, by the count of days in whole 400-year spans. ok is false for what is
// no date.
func dayNumber(year, month, day int) (n int, ok bool) {
	if month < 1 || month > 12 || day < 1 || day > 31 || year < 1900 || year > 2200 {
		return 0, false
	}
	y := year
	if month <= 2 {
		y--
	}
	shifted := (month + 9) % 12 // March is 0, so that the leap day ends a year
	ofYear := (153*shifted+2)/5 + day - 1
	return y*365 + y/4 - y/100 + y/400 + ofYear - 719468, true
}

// day returns the day number of a date when its numbers follow in the order o.
func (m *moment) day(o order) (n int, ok bool) {
	d := m.date
	switch {
	case m.named || d[0] >= 1000:
		return dayNumber(d[0], d[1], d[2])
	case o == yearFirst:
		return dayNumber(fullYear(d[0]), d[1], d[2])
	case o == monthFirst:
		return dayNumber(fullYear(d[2]), d[0], d[1])
	}
	return dayNumber(fullYear(d[2]), d[1], d[0])
}
