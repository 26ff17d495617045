package sun

import (
	"fmt"
	"math"
)

// ParseTime reads a date and time with its distance from UTC as RFC 3339 writes
// them: 2003-10-17T12:30:30-07:00 or 2003-10-17T19:30:30Z; the seconds may have
// decimals or be 60. Errors: any other form, and dates that do not exist.
func ParseTime(text string) (Instant, error) {
	s := scanner{rest: text}
	year, month, day := s.digits(4, 0, 9999), s.after('-', 1, 12), s.after('-', 1, 31)
	s.oneOf("Tt ")
	hour, minute, second := s.digits(2, 0, 23), s.after(':', 0, 59), s.after(':', 0, 60)
	seconds := float64(hour*3600+minute*60+second) + s.decimals() - s.offset()
	if s.broken || s.rest != "" || day > monthDays(year, month) {
		return 0, fmt.Errorf("%q is not a date and time such as 2003-10-17T12:30:30-07:00 or 2003-10-17T19:30:30Z", text)
	}
	return At(year, month, day, seconds), nil
}

// scanner takes a text apart from the left; broken once something was amiss.
type scanner struct {
	rest   string
	broken bool
}

// digits reads n digits as a number from least to most.
func (s *scanner) digits(n, least, most int) int {
	if len(s.rest) < n {
		s.broken = true
		return 0
	}
	v := 0
	for _, c := range []byte(s.rest[:n]) {
		if c < '0' || c > '9' {
			s.broken = true
		}
		v = 10*v + int(c-'0')
	}
	s.rest = s.rest[n:]
	s.broken = s.broken || v < least || v > most
	return v
}

// after reads a mark and two digits.
func (s *scanner) after(mark byte, least, most int) int {
	s.oneOf(string(mark))
	return s.digits(2, least, most)
}

// oneOf reads one of the marks and returns it, 0 when there is none.
func (s *scanner) oneOf(marks string) byte {
	for _, m := range []byte(marks) {
		if s.rest != "" && s.rest[0] == m {
			s.rest = s.rest[1:]
			return m
		}
	}
	s.broken = true
	return 0
}

// decimals reads the decimals of a second, if there are any.
func (s *scanner) decimals() float64 {
	if s.rest == "" || s.rest[0] != '.' {
		return 0
	}
	s.rest = s.rest[1:]
	v, scale, n := 0.0, 1.0, 0
	for ; s.rest != "" && s.rest[0] >= '0' && s.rest[0] <= '9'; n++ {
		scale /= 10
		v += scale * float64(s.rest[0]-'0')
		s.rest = s.rest[1:]
	}
	s.broken = s.broken || n == 0
	return v
}

// offset reads the distance from UTC in seconds, east positive.
func (s *scanner) offset() float64 {
	sign := 1
	switch s.oneOf("Zz+-") {
	case '-':
		sign = -1
	case '+':
	default:
		return 0
	}
	return float64(sign * (3600*s.digits(2, 0, 23) + 60*s.after(':', 0, 59)))
}

func monthDays(year, month int) int {
	return dayNumber(year+month/12, month%12+1, 1) - dayNumber(year, month, 1)
}

// String writes the instant as RFC 3339 to the whole second, in UTC.
func (t Instant) String() string {
	whole := Instant(math.Round(float64(t)*86400) / 86400)
	year, month, day, seconds := (whole + 0.1/86400).Date()
	n := int(seconds)
	return fmt.Sprintf("%04d-%02d-%02dT%02d:%02d:%02dZ", year, month, day, n/3600, n/60%60, n%60)
}
