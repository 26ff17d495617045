package benchlog

// moment is a date, a clock or both, as written.
type moment struct {
	date    [3]int // in the order written; a year of two digits is as written
	named   bool   // the month is a name: date is year, month, day already
	hasDate bool
	clock   float64 // seconds; of the day, or elapsed
	groups  int     // numbers in the clock: 2 for 10:30
	zone    float64 // seconds east of Greenwich
}

// order is how the numbers of a date follow each other.
type order uint8

const (
	anyOrder order = iota
	yearFirst
	dayFirst
	monthFirst
)

// momentKind tells a clock, a date or both from a word.
func momentKind(b []byte) kind {
	m, ok := parseMoment(b)
	switch {
	case !ok:
		return isWord
	case m.hasDate && m.groups > 0:
		return isMoment
	case m.hasDate:
		return isDate
	}
	return isClock
}

// parseMoment reads a date, a clock, or both with a blank, T, comma or
// underscore between them.
func parseMoment(b []byte) (m moment, ok bool) {
	at := m.readDate(b)
	m.hasDate = at > 0
	for at < len(b) && m.hasDate && (b[at] == ' ' || b[at] == 'T' || b[at] == ',' || b[at] == '_') {
		at++
	}
	if at == len(b) {
		return m, m.hasDate
	}
	n := m.readClock(b[at:])
	if n == 0 {
		return m, false
	}
	at += n
	at += m.halfDay(b[at:])
	at += m.readZone(b[at:])
	return m, at == len(b)
}

// readDate reads a date at the start of b and returns its length, 0 for none.
func (m *moment) readDate(b []byte) int {
	at := weekday(b)
	n, length := digits(b[at:])
	if length == 8 && at+8 < len(b) {
		m.date = [3]int{n / 10000, n / 100 % 100, n % 100}
		return at + 8
	}
	var numbers [3]int
	month := 0
	for count := range 3 {
		number, length := digits(b[at:])
		if length == 0 {
			if number, length = monthName(b[at:]); length == 0 || month > 0 {
				return 0
			}
			month, number = number, -1
		}
		numbers[count] = number
		at += length
		if count == 2 {
			break
		}
		gap := dateGap(b[at:], month > 0 || count == 0)
		if gap == 0 {
			return 0
		}
		at += gap
	}
	m.takeDate(numbers, month)
	return at
}

// takeDate keeps the numbers of a date; with the name of a month (-1 among the
// numbers) the day stands before the year unless it cannot be a day.
func (m *moment) takeDate(numbers [3]int, month int) {
	m.date = numbers
	if month == 0 {
		return
	}
	day, year := -1, -1
	for _, n := range numbers {
		switch {
		case n < 0:
		case day < 0:
			day = n
		default:
			year = n
		}
	}
	if day > 31 {
		day, year = year, day
	}
	m.date, m.named = [3]int{fullYear(year), month, day}, true
}

// dateGap returns the length of what stands between the parts of a date. A
// blank stands there only beside the name of a month.
func dateGap(b []byte, blank bool) int {
	switch {
	case len(b) < 2:
		return 0
	case b[0] == '.' && b[1] == ' ', b[0] == ',' && b[1] == ' ':
		return 2
	case b[0] == '.' || b[0] == '/' || b[0] == '-':
		return 1
	case b[0] == ' ' && blank && (isDigit(b[1]) || b[1] > '9'):
		return 1
	}
	return 0
}

// digits reads a whole number of at most nine digits.
func digits(b []byte) (n, length int) {
	for length < len(b) && length < 9 && isDigit(b[length]) {
		n = n*10 + int(b[length]-'0')
		length++
	}
	return n, length
}
