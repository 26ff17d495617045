package benchlog

import "math"

// readClock reads h:m, h:m:s, with a fraction, with days before, and returns
// its length.
func (m *moment) readClock(b []byte) int {
	var part [4]float64
	at, days := dayCount(b)
	start := at
	for m.groups < 4 {
		n, length := digits(b[at:])
		if length == 0 {
			return 0
		}
		part[m.groups] = float64(n)
		m.groups++
		at += length
		if at >= len(b) || b[at] != ':' {
			break
		}
		at++
	}
	if m.groups == 1 {
		return m.compactClock(b, start, at)
	}
	if m.groups == 4 {
		return m.fourParts(part, at)
	}
	if part[1] >= 60 || part[2] >= 60 && m.groups == 3 {
		return 0
	}
	m.clock = days*86400 + part[0]*3600 + part[1]*60 + part[2]
	if m.groups == 2 && start == 0 && at < len(b) && (b[at] == '.' || b[at] == ',') && !m.hasDate {
		m.clock, m.groups = part[0]*60+part[1], 3
	}
	return m.fraction(b, at)
}

// fourParts reads d:h:m:s, or h:m:s:milliseconds when the last is that.
func (m *moment) fourParts(part [4]float64, at int) int {
	if part[3] >= 60 || m.hasDate {
		m.clock = part[0]*3600 + part[1]*60 + part[2] + part[3]/1000
	} else {
		m.clock = part[0]*86400 + part[1]*3600 + part[2]*60 + part[3]
	}
	m.groups = 3
	return at
}

// compactClock reads 101530 behind a date.
func (m *moment) compactClock(b []byte, start, at int) int {
	n, length := digits(b[start:])
	if !m.hasDate || length != 6 {
		return 0
	}
	m.clock, m.groups = float64(n/10000*3600+n/100%100*60+n%100), 3
	return m.fraction(b, at)
}

// fraction reads the fraction of a second behind a clock.
func (m *moment) fraction(b []byte, at int) int {
	if at+1 >= len(b) || b[at] != '.' && b[at] != ',' || !isDigit(b[at+1]) {
		return at
	}
	n, length := digits(b[at+1:])
	m.clock += float64(n) / tens[length]
	for at += 1 + length; at < len(b) && isDigit(b[at]); at++ {
	}
	return at
}

// dayCount reads "2d ", "2 days, " or "2-" before a clock.
func dayCount(b []byte) (at int, days float64) {
	n, length := digits(b)
	if length == 0 || length >= len(b) {
		return 0, 0
	}
	rest := b[length:]
	switch {
	case rest[0] == '-':
		return length + 1, float64(n)
	case rest[0] == 'd' || rest[0] == ' ' && len(rest) > 1 && rest[1] == 'd':
		at = length
		for at < len(b) && !isDigit(b[at]) {
			at++
		}
		return at, float64(n)
	case rest[0] == ' ' && len(rest) > 1 && isDigit(rest[1]):
		return length + 1, float64(n)
	case rest[0] == '.' && clockLater(rest[1:]):
		return length + 1, float64(n)
	}
	return 0, 0
}

// clockLater reports whether h:m:s follows, as behind the days of 1.02:03:04.
func clockLater(b []byte) bool {
	_, n := digits(b)
	return n > 0 && n <= 2 && n < len(b) && b[n] == ':'
}

// halfDay reads AM or PM.
func (m *moment) halfDay(b []byte) int {
	at := 0
	for at < len(b) && b[at] == ' ' {
		at++
	}
	if at >= len(b) || b[at]|0x20 != 'a' && b[at]|0x20 != 'p' {
		return 0
	}
	late := b[at]|0x20 == 'p'
	at++
	for at < len(b) && (b[at] == '.' || b[at]|0x20 == 'm' || b[at] == ' ') {
		at++
	}
	hour := math.Floor(m.clock / 3600)
	if late && hour < 12 {
		m.clock += 12 * 3600
	}
	if !late && hour == 12 {
		m.clock -= 12 * 3600
	}
	return at
}

// readZone reads Z, +01:00, -0530 or UTC behind a clock.
func (m *moment) readZone(b []byte) int {
	at := 0
	for at < len(b) && b[at] == ' ' {
		at++
	}
	for _, name := range []string{"Z", "UTC", "GMT"} {
		if string(b[at:]) == name {
			return len(b)
		}
	}
	if at >= len(b) || b[at] != '+' && b[at] != '-' {
		return 0
	}
	hours, n := digits(b[at+1:])
	minutes, k := 0, 0
	if end := at + 1 + n; n == 2 && end < len(b) && b[end] == ':' {
		minutes, k = digits(b[end+1:])
		k++
	}
	if n == 4 {
		hours, minutes = hours/100, hours%100
	}
	if n == 0 || hours > 15 {
		return 0
	}
	m.zone = float64(hours*3600 + minutes*60)
	if b[at] == '-' {
		m.zone = -m.zone
	}
	return at + 1 + n + k
}
