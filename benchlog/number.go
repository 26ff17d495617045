package benchlog

import (
	"bytes"
	"math"
	"strconv"
)

// exact powers of ten: a mantissa below 2^53 times or over one of them is
// rounded once, so it equals what strconv gives (Clinger 1990, the fast case).
var tens = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

const maxMantissa = 1 << 53

// plainNumber reads a decimal such as -12.345 with the given decimal mark. It
// knows nothing of exponents, units and thousands; ok is false for those.
func plainNumber(b []byte, mark byte) (v float64, ok bool) {
	i, negative := 0, false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		negative = b[0] == '-'
		i = 1
	}
	var mantissa uint64
	digits, places, seen := 0, 0, false
	for ; i < len(b); i++ {
		c := b[i]
		switch {
		case c >= '0' && c <= '9':
			mantissa = mantissa*10 + uint64(c-'0')
			digits++
			if seen {
				places++
			}
		case c == mark && !seen:
			seen = true
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > 18 || mantissa > maxMantissa {
		return 0, false
	}
	v = float64(mantissa) / tens[places]
	if negative {
		v = -v
	}
	return v, true
}

// number reads a value as loggers write it: exponents, thousands separators, a
// decimal comma, a typographic minus. An absent value ("", "--", "OL", "NaN")
// is NaN. What follows the number, such as a unit, is returned as rest.
func number(b []byte, mark byte) (v float64, rest []byte, ok bool) {
	if v, ok := plainNumber(b, mark); ok {
		return v, nil, true
	}
	if absent(b) {
		return math.NaN(), nil, true
	}
	var room [64]byte
	text, rest, ok := tidy(room[:0], b, mark)
	if !ok {
		return 0, nil, false
	}
	v, err := strconv.ParseFloat(string(text), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, nil, false
	}
	return v, rest, true
}

// tidy copies the number at the start of b in the form strconv reads.
func tidy(into, b []byte, mark byte) (text, rest []byte, ok bool) {
	i, digits := 0, 0
	if sign, n := signAt(b); n > 0 {
		into = append(into, sign)
		i = n
		for i < len(b) && b[i] == ' ' {
			i++
		}
	}
	seen := false
	for i < len(b) && len(into) < 60 {
		switch c := b[i]; {
		case isDigit(c):
			into = append(into, c)
			digits++
			i++
		case c == mark && !seen:
			into = append(into, '.')
			seen = true
			i++
		case !seen && digits > 0 && into[len(into)-digits] != '0' && thousands(b[i:], mark) > 0:
			i += thousands(b[i:], mark)
		case digits > 0 && exponent(b[i:]) > 0:
			n := exponent(b[i:])
			into = append(into, b[i:i+n]...)
			return into, bytes.TrimSpace(b[i+n:]), true
		default:
			return into, bytes.TrimSpace(b[i:]), digits > 0
		}
	}
	return into, bytes.TrimSpace(b[i:]), digits > 0 && len(into) < 60
}

// signAt reads a sign: plus, hyphen, the minus of typographers, the en dash
// (in UTF-8, or the single byte of the western code page).
func signAt(b []byte) (sign byte, length int) {
	switch {
	case len(b) == 0:
		return 0, 0
	case b[0] == '-' || b[0] == '+':
		return b[0], 1
	case bytes.HasPrefix(b, []byte("\u2212")), bytes.HasPrefix(b, []byte("\u2013")):
		return '-', 3
	case b[0] == 0x96:
		return '-', 1
	}
	return 0, 0
}

// thousands returns the length of a thousands separator at the start of b when
// exactly three digits follow it, else 0.
func thousands(b []byte, mark byte) int {
	n := 0
	switch {
	case b[0] == '\'' || b[0] == ' ' || b[0] == 0xA0 || (b[0] == ',' || b[0] == '.') && b[0] != mark:
		n = 1
	case bytes.HasPrefix(b, []byte("\u00a0")):
		n = 2
	case bytes.HasPrefix(b, []byte("\u202f")), bytes.HasPrefix(b, []byte("\u2009")), bytes.HasPrefix(b, []byte("\u2019")):
		n = 3
	default:
		return 0
	}
	if len(b) < n+3 || !isDigit(b[n]) || !isDigit(b[n+1]) || !isDigit(b[n+2]) || len(b) > n+3 && isDigit(b[n+3]) {
		return 0
	}
	return n
}

// exponent returns the length of an exponent such as E-03 at the start of b.
func exponent(b []byte) int {
	if b[0] != 'e' && b[0] != 'E' {
		return 0
	}
	i := 1
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		i++
	}
	from := i
	for i < len(b) && isDigit(b[i]) {
		i++
	}
	if i == from {
		return 0
	}
	return i
}

func isDigit(c byte) bool { return c-'0' <= 9 }

// absentWords are what loggers and spreadsheets write for "no value".
var absentWords = map[string]bool{
	"": true, "-": true, "--": true, "---": true, "----": true, "nan": true, "null": true, "nil": true, "none": true,
	"n/a": true, "na": true, "#n/a": true, "#nv": true, "#na": true, "ol": true, "o.l": true, "0l": true, ".ol": true,
	"-ol": true, "+ol": true, "over": true, "overload": true, "overflow": true, "inf": true, "-inf": true, "+inf": true,
	"-nan": true, "open": true, "short": true, "err": true, "error": true, "fault": true, "?": true, "*": true, "x": true,
	"invalid": true, "missing": true, "\u2013": true, "\u2014": true,
}

func absent(b []byte) bool {
	if len(b) == 0 {
		return true
	}
	if len(b) > 8 || isDigit(b[0]) && b[0] != '0' {
		return false
	}
	var room [8]byte
	low := room[:len(b)]
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		low[i] = c
	}
	return absentWords[string(low)]
}
