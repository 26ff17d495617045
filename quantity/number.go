package quantity

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// split separates "5.2 kWh" into 5.2 and "kWh"; why is empty when it could.
// Only plain decimals count as numbers: no NaN, infinity, hexadecimal or
// underscores.
func split(text string) (number float64, unit, why string) {
	s := plainMinus(strings.TrimSpace(text))
	if s == "" {
		return 0, "", "is empty"
	}
	end := numberEnd(s)
	if end == 0 {
		return 0, "", "does not start with a number"
	}
	number, why = decimal(s[:end])
	rest := s[end:]
	if why == "" {
		why = brokenNumber(rest)
	}
	return number, strings.TrimSpace(rest), why
}

// plainMinus writes the leading minus, which word processors and phones turn
// into a longer stroke, as a hyphen. A space after it is dropped.
func plainMinus(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	switch r {
	case '-', '\u2212', '\u2013', '\u2010', '\u2011', '\ufe63', '\uff0d':
		return "-" + strings.TrimSpace(s[size:])
	}
	return s
}

func decimal(s string) (float64, string) {
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case errors.Is(err, strconv.ErrRange) && math.IsInf(v, 0):
		return 0, "is too large"
	case err != nil && !errors.Is(err, strconv.ErrRange):
		return 0, "does not start with a number that can be read"
	}
	return v + 0, "" // + 0 makes -0 plain 0
}

// brokenNumber says what is wrong when a number goes on behind a mark that
// does not belong in it.
func brokenNumber(rest string) string {
	trimmed := strings.TrimLeftFunc(rest, unicode.IsSpace)
	switch {
	case rest == "" || trimmed == "":
		return ""
	case rest[0] == ',':
		return "has a comma in its number; write a point for decimals and no mark for thousands"
	case startsWithDigit(trimmed):
		return "has a space inside its number"
	case strings.ContainsRune("_'xX", rune(rest[0])) && startsWithDigit(rest[1:]):
		return "is not a plain decimal number"
	}
	return ""
}

func startsWithDigit(s string) bool { return s != "" && isDigit(s[0]) }

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// numberEnd returns the length of the leading decimal number of s, 0 when
// there is none.
func numberEnd(s string) int {
	i, digits := 0, 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	for ; i < len(s) && (isDigit(s[i]) || s[i] == '.'); i++ {
		if s[i] != '.' {
			digits++
		}
	}
	if digits == 0 {
		return 0
	}
	return exponentEnd(s, i)
}

// exponentEnd returns where an exponent that starts at i ends, i when there is
// none: the E of "7.6 E" is a unit.
func exponentEnd(s string, i int) int {
	if i >= len(s) || s[i] != 'e' && s[i] != 'E' {
		return i
	}
	j := i + 1
	if j < len(s) && (s[j] == '-' || s[j] == '+') {
		j++
	}
	start := j
	for j < len(s) && isDigit(s[j]) {
		j++
	}
	if j == start {
		return i
	}
	return j
}
