package benchlog

import (
	"bytes"
	"strings"
)

// takeHeader finds the names among the lines above the first row, and a line
// of units between the two.
func (p *sample) takeHeader(above [][]byte, sh shape) {
	at := lastLine(above, len(above))
	for at >= 0 && isRule(above[at]) {
		at = lastLine(above, at)
	}
	if at < 0 {
		return
	}
	fields := headerFields(above[at], sh)
	if mostlyUnits(fields) {
		if up := lastLine(above, at); up >= 0 {
			if names := headerFields(above[up], sh); areNames(names, sh) && !mostlyUnits(names) {
				p.names, p.units = names, fields
				p.shape.header, p.shape.units = up+1, at+1
				p.shape.width = max(p.shape.width, len(p.names))
				return
			}
		}
	}
	if areNames(fields, sh) {
		p.names = fields
		p.shape.header = at + 1
	}
	p.shape.width = max(p.shape.width, len(p.names))
}

// isRule reports a line of dashes, drawn under the names.
func isRule(line []byte) bool {
	return len(line) > 2 && len(bytes.Trim(line, "-=+|,;: \t")) == 0
}

// areNames tells a line of names from remarks above the table: as many fields
// as the rows have, or nearly, and words rather than numbers. A line with
// numbers in it must hold words that are known.
func areNames(fields []string, sh shape) bool {
	words, values, familiar := 0, 0, 0
	for _, f := range fields {
		if k := kindOf([]byte(f), sh.mark); k != isWord && k != isAbsent {
			values++
			continue
		}
		words++
		if m := understand(f, ""); m.tags != 0 {
			familiar++
		}
	}
	return hasLetters(fields) && len(fields)*3 >= sh.width*2 && words > values && (values == 0 || 2*familiar >= words)
}

// lastLine returns the last line before n that is not empty.
func lastLine(list [][]byte, n int) int {
	for n--; n >= 0; n-- {
		if len(trim(list[n])) > 0 {
			return n
		}
	}
	return -1
}

func headerFields(line []byte, sh shape) []string {
	if isComment(line) {
		line = trim(bytes.TrimLeft(trim(line), "#/%"))
	}
	s := splitter{separator: sh.separator}
	var list []string
	for _, f := range s.split(line) {
		list = append(list, text(f))
	}
	if sh.separator == ' ' && len(list) > sh.width {
		return wordsTogether(line, sh.width, list)
	}
	return list
}

// wordsTogether puts names of several words together in a header that blanks
// separate: wide gaps part the columns, or units in brackets end them.
func wordsTogether(line []byte, width int, list []string) []string {
	var names []string
	for _, name := range strings.Split(strings.ReplaceAll(text(line), "\t", "  "), "  ") {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	if len(names) == width {
		return names
	}
	names = nil
	for _, word := range list {
		if n := len(names); n > 0 && strings.IndexAny(word, "([") == 0 {
			names[n-1] += " " + word
		} else {
			names = append(names, word)
		}
	}
	return names
}

// mostlyUnits reports a line of units; one that says how a time is written may
// be among them.
func mostlyUnits(fields []string) bool {
	n, filled := 0, 0
	for _, f := range fields {
		if f == "" || f == "-" {
			continue
		}
		filled++
		if _, ok := unitOf(trimBrackets(f)); ok {
			n++
		}
	}
	return n > 1 && 2*n > filled
}

func hasLetters(fields []string) bool {
	for _, f := range fields {
		for _, r := range f {
			if r > 127 || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
				return true
			}
		}
	}
	return false
}
