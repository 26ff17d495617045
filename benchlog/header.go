package benchlog

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// meaning is what the header says of a column.
type meaning struct {
	name   string
	tags   tag
	unit   unit   // its symbol is empty where the header says none
	number int    // the number in the name, -1 where there is none
	worded tag    // what the words say without the unit
	letter string // a lone letter that may stand for several things: t, c
}

// quantities are the tags that name a measured quantity.
const quantities = aTime | aDate | aVoltage | aCurrent | aTemperature | aCapacity | anEnergy | aPower | aSoC | other

// quantityOf is the quantity a dimension measures.
var quantityOf = map[dimension]tag{volts: aVoltage, amperes: aCurrent, ampereHours: aCapacity, wattHours: anEnergy, watts: aPower,
	celsius: aTemperature, seconds: aTime, percent: aSoC, ohms: other}

// understand reads the name of a column. below is its field in a line of units
// under the names, where there is one.
func understand(name, below string) meaning {
	m := meaning{name: strings.TrimSpace(name), number: -1}
	m.unit, _ = unitOf(trimBrackets(below))
	rest := m.slash(m.brackets(m.name))
	tokens := m.tokens(rest)
	if m.unit.symbol == "" {
		tokens = m.takeUnit(tokens)
	}
	for _, t := range tokens {
		m.tags |= words[t]
	}
	m.worded = m.tags
	for _, t := range tokens {
		if len(t) == 1 && (len(tokens) == 1 || t == "t") {
			m.letter = t
		}
	}
	if strings.Contains(rest, "+") {
		m.tags |= positive
	}
	m.settle(tokens)
	return m
}

// brackets takes the unit out of "Voltage (mV)". What is in brackets and is no
// unit stays as words, except the way a time is written.
func (m *meaning) brackets(s string) string {
	open := strings.IndexAny(s, "([{<")
	if open < 0 {
		return s
	}
	length := strings.IndexAny(s[open+1:], ")]}>")
	if length < 0 {
		return s
	}
	inside, after := s[open+1:open+1+length], s[open+length+2:]
	if u, ok := unitOf(inside); ok && m.unit.symbol == "" {
		m.unit = u
		inside = ""
	}
	if low := fold(inside); strings.Contains(low, "mm") || strings.Contains(low, ":") || strings.HasPrefix(low, "gmt") || strings.HasPrefix(low, "utc") {
		inside = ""
	}
	return s[:open] + " " + inside + " " + m.brackets(after)
}

// slash takes the unit off "U / V"; "date/time" has none.
func (m *meaning) slash(s string) string {
	at := strings.LastIndexByte(s, '/')
	if at <= 0 || m.unit.symbol != "" {
		return s
	}
	u, ok := unitOf(s[at+1:])
	if !ok {
		return s
	}
	m.unit = u
	return s[:at]
}

// tokens returns the words of a name in small plain letters; numbers go into
// m.number, the last one counting.
func (m *meaning) tokens(s string) []string {
	var list []string
	for _, chunk := range strings.FieldsFunc(s, between) {
		cut := []string{chunk}
		if !known(fold(chunk)) {
			cut = parts(chunk)
		}
		for _, part := range cut {
			if n, err := strconv.Atoi(part); err == nil {
				m.number = n
			} else {
				list = append(list, fold(part))
			}
		}
	}
	return hours(list)
}

// hours puts "amp hours" and "watt hours" together.
func hours(tokens []string) []string {
	short := map[string]string{"amp": "ah", "amps": "ah", "ampere": "ah", "milliamp": "mah", "watt": "wh", "watts": "wh", "kilowatt": "kwh"}
	for i := 0; i+1 < len(tokens); i++ {
		joined := short[tokens[i]]
		if joined != "" && slices.Contains([]string{"hour", "hours", "hr", "hrs", "h"}, tokens[i+1]) {
			tokens[i] = joined
			tokens = slices.Delete(tokens, i+1, i+2)
		}
	}
	return tokens
}

func known(low string) bool {
	_, isUnit := units[low]
	_, isWord := words[low]
	return isUnit || isWord
}

func between(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '%' && r != '°'
}

// takeUnit finds the unit among the words: the last one, as in cell1_mv, or one
// that can be nothing else. A name that is all unit keeps it as its word.
func (m *meaning) takeUnit(tokens []string) []string {
	last := len(tokens) - 1
	for i := last; i >= 0; i-- {
		t := tokens[i]
		u, ok := units[t]
		if !ok || i != last && len(t) < 2 || ambiguous(t, tokens) {
			continue
		}
		if last == 0 && (len(t) == 1 && m.number >= 0 || t == "c" || t == "m") {
			continue
		}
		m.unit = u
		if words[t]&quantities == 0 || len(t) == 1 && last > 0 {
			return slices.Delete(tokens, i, i+1)
		}
		return tokens
	}
	return tokens
}

// ambiguous reports whether a word that is spelled like a unit means another
// thing here: the min of "cell min V", the "as" of no unit at all.
func ambiguous(t string, tokens []string) bool {
	switch t {
	case "min":
		return len(tokens) > 1 && !slices.ContainsFunc(tokens, func(s string) bool { return words[s]&aTime != 0 })
	case "as", "us", "std", "deg", "day", "ns":
		return len(tokens) < 2
	}
	return false
}

// settle brings the words and the unit together.
func (m *meaning) settle(tokens []string) {
	if slices.Contains(tokens, "min") {
		m.tags |= aLimit
	}
	if slices.Contains(tokens, "state") && m.tags&charging != 0 && m.unit.dimension == percent {
		m.tags = aSoC
	}
	byUnit := quantityOf[m.unit.dimension]
	named := m.tags & quantities
	switch {
	case byUnit == 0 || named&byUnit != 0 || named&other != 0:
	case named == 0:
		m.tags |= byUnit
	case m.unit.dimension == seconds || len(m.unit.symbol) == 1:
		m.unit = unit{} // a letter, not a unit
	default:
		m.tags = m.tags&^quantities | byUnit
	}
}

// parts cuts "CellVoltage3" into Cell, Voltage, 3 and "VCell1" into V, Cell, 1.
func parts(s string) []string {
	var list []string
	r := []rune(s)
	start := 0
	for i := 1; i <= len(r); i++ {
		if i == len(r) || breaks(r, i) {
			list = append(list, string(r[start:i]))
			start = i
		}
	}
	return list
}

func breaks(r []rune, i int) bool {
	a, b := r[i-1], r[i]
	switch {
	case unicode.IsDigit(a) != unicode.IsDigit(b):
		return true
	case unicode.IsLower(a) && unicode.IsUpper(b):
		return true
	}
	return unicode.IsUpper(a) && unicode.IsUpper(b) && i+1 < len(r) && unicode.IsLower(r[i+1])
}

// trimBrackets takes brackets off a unit that stands alone: "[V]".
func trimBrackets(s string) string { return strings.Trim(s, "[](){}<> ") }
