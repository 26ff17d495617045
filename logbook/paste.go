package logbook

import (
	"strconv"
	"strings"
)

// Values splits what was pasted or given in one text into the values of the
// groups: a column, a row, with or without the number of the group before each.
// A lone dash is a group that was not read.
func Values(text string) []string {
	var list []string
	numbered := true
	lines := strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' })
	rows := make([][]string, 0, len(lines))
	for _, line := range lines {
		row := splitValues(line)
		if len(row) == 0 {
			continue
		}
		rows = append(rows, row)
		number := strings.TrimRight(row[0], ":.)")
		numbered = numbered && len(row) == 2 && number == strconv.Itoa(len(rows))
	}
	for _, row := range rows {
		if numbered && len(rows) > 1 {
			row = row[1:]
		}
		list = append(list, row...)
	}
	for i, v := range list {
		if v == "-" || v == "–" {
			list[i] = ""
		}
	}
	return list
}

// splitValues parts a line at spaces, tabs and semicolons, and at commas that are
// not decimal. A unit stays with its number.
func splitValues(line string) []string {
	var list []string
	for _, part := range strings.FieldsFunc(line, func(r rune) bool { return r == ' ' || r == '\t' || r == ';' || r == '\u00a0' }) {
		if n := len(list); n > 0 && isUnit(strings.Trim(part, ",")) {
			list[n-1] += " " + strings.Trim(part, ",")
			continue
		}
		list = append(list, atCommas(part)...)
	}
	return list
}

// atCommas parts at commas where a point stands before the decimals, or where
// there is more than one; a single one is the decimal comma itself.
func atCommas(part string) []string {
	part = strings.Trim(part, ",")
	if part == "" {
		return nil
	}
	if n := strings.Count(part, ","); n == 0 || n == 1 && !strings.Contains(part, ".") {
		return []string{part}
	}
	return strings.FieldsFunc(part, func(r rune) bool { return r == ',' })
}

func isUnit(part string) bool {
	switch part {
	case "V", "mV", "°C", "°F", "C", "F", "K":
		return true
	}
	return false
}
