package benchlog

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
)

// given is what the options fix.
type given struct {
	separator, mark byte
	perRow          float64 // s from row to row where the file has no time
	time            unit    // of a column of numbers
	order           order   // of a date
	minutes, clock  bool    // how a clock of two numbers is read
	sign            float64
}

func wrong(name, message, expected, example string) *Error {
	return &Error{File: name, Message: message, Expected: expected, Example: example}
}

// give reads the options that do not name columns.
func give(name string, o Options) (given, *Error) {
	var g given
	if o.Separator != "" {
		if g.separator = separatorOf(o.Separator); g.separator == 0 {
			return g, wrong(name, fmt.Sprintf("separator %q is not known", o.Separator), "comma, semicolon, tab, pipe or space", "semicolon")
		}
	}
	switch strings.ToLower(strings.TrimSpace(o.Decimal)) {
	case "":
	case "point", ".", "dot":
		g.mark = '.'
	case "comma", ",":
		g.mark = ','
	default:
		return g, wrong(name, fmt.Sprintf("decimal %q is not known", o.Decimal), "point or comma", "comma")
	}
	if !g.giveSign(o.Sign) {
		return g, wrong(name, fmt.Sprintf("sign %q is not known", o.Sign), "what a positive current does: charge or discharge", "charge")
	}
	if !g.giveTime(o.Time) {
		return g, wrong(name, fmt.Sprintf("time %q is not known", o.Time),
			"a unit (s, ms, min, h), the order of a date (day first, month first), or the step from row to row", "10 s")
	}
	if o.Groups < 0 {
		return g, wrong(name, fmt.Sprintf("%d groups", o.Groups), "how many columns of group voltages there are", "6")
	}
	return g, nil
}

func separatorOf(text string) byte {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, s := range separators {
		if t == s.name || text == string(s.mark) {
			return s.mark
		}
	}
	if text == `\t` {
		return '\t'
	}
	return 0
}

func (g *given) giveSign(text string) bool {
	switch strings.Join(strings.Fields(strings.ToLower(text)), " ") {
	case "":
	case "charge", chargePositive, "discharge negative":
		g.sign = 1
	case "discharge", dischargePositive, "charge negative":
		g.sign = -1
	default:
		return false
	}
	return true
}

// giveTime reads a unit, a step, or how a date is written.
func (g *given) giveTime(text string) bool {
	t := fold(strings.TrimSpace(text))
	switch t {
	case "":
		return true
	case "h:min", "hh:mm", "h:m":
		g.clock = true
		return true
	case "min:s", "mm:ss", "m:s":
		g.minutes = true
		return true
	}
	if u, ok := unitOf(t); ok && u.dimension == seconds {
		g.time = u
		return true
	}
	if g.order = orderOf(t); g.order != anyOrder {
		return true
	}
	if slices.Contains([]string{"clock", "date", "date and clock", "epoch"}, t) {
		return true
	}
	v, rest, ok := number([]byte(t), '.')
	u, known := unitOf(string(rest))
	if !ok || !known || u.dimension != seconds || !(v > 0) {
		return false
	}
	g.perRow = v * u.scale
	return !math.IsInf(g.perRow, 0)
}

// orderOf reads "dmy", "d/m/y", "dd.mm.yyyy" or "day first".
func orderOf(t string) order {
	switch {
	case strings.HasPrefix(t, "day"):
		return dayFirst
	case strings.HasPrefix(t, "month"):
		return monthFirst
	case strings.HasPrefix(t, "year"):
		return yearFirst
	}
	var letters []byte
	for i := range len(t) {
		if c := t[i]; strings.IndexByte("dmy", c) >= 0 && (len(letters) == 0 || letters[len(letters)-1] != c) {
			letters = append(letters, c)
		}
	}
	return map[string]order{"dmy": dayFirst, "mdy": monthFirst, "ymd": yearFirst}[string(letters[:min(3, len(letters))])]
}

// fix sets the roles that the options give to columns.
func fix(name string, list []column, o Options, header int) *Error {
	for _, key := range slices.Sorted(maps.Keys(o.Columns)) {
		c := find(list, key)
		if c == nil {
			return &Error{File: name, Line: header, Message: fmt.Sprintf("there is no column %q", key),
				Expected: "a name or a number of one of " + namesOf(list), Example: strconv.Quote(list[0].m.name) + " or 1"}
		}
		if !c.fix(o.Columns[key]) {
			return &Error{File: name, Line: header, Column: c.index + 1, Message: fmt.Sprintf("column %q cannot be %q", c.m.name, o.Columns[key]),
				Expected: "a role (time, voltage, current, group, temperature, charge, charge in, charge out, energy, power, cycle, step, state of charge, ignored), for a group its number, and a unit if need be",
				Example:  "group 3 mV"}
		}
	}
	return nil
}

// find returns the column of a name, or of a number from 1.
func find(list []column, key string) *column {
	for i := range list {
		if strings.EqualFold(strings.TrimSpace(key), list[i].m.name) {
			return &list[i]
		}
	}
	n, err := strconv.Atoi(strings.TrimPrefix(strings.ToLower(strings.TrimSpace(key)), "column "))
	if err != nil || n < 1 || n > len(list) {
		return nil
	}
	return &list[n-1]
}

func namesOf(list []column) string {
	var names []string
	for _, c := range list[:min(len(list), 20)] {
		names = append(names, strconv.Quote(c.m.name))
	}
	if len(list) > 20 {
		names = append(names, "and others")
	}
	return strings.Join(names, ", ")
}

// roles by the words of the options, longest first.
var roles = []Role{SoC, ChargeOut, Temperature, ChargeIn, Voltage, Current, Ignored, GroupV, Charge, Energy, Power, Cycle, Time, Step}

// dimensionOf is the dimension a role is measured in.
var dimensionOf = map[Role]dimension{Voltage: volts, GroupV: volts, Current: amperes, Temperature: celsius, Charge: ampereHours,
	ChargeIn: ampereHours, ChargeOut: ampereHours, Energy: wattHours, Power: watts, Time: seconds, SoC: percent}

// fix reads "current mA" or "group 3 mV".
func (c *column) fix(text string) bool {
	rest := strings.Join(strings.Fields(text), " ")
	low := strings.ToLower(rest)
	role := Role("")
	for _, r := range roles {
		if low == string(r) || strings.HasPrefix(low, string(r)+" ") {
			role = r
			break
		}
	}
	if role == "" {
		return false
	}
	c.role, c.fixed = role, true
	words := strings.Fields(rest[len(role):])
	if len(words) > 0 && role == GroupV {
		if n, err := strconv.Atoi(words[0]); err == nil {
			if n < 1 || n > maxFields {
				return false
			}
			c.group = n
			words = words[1:]
		}
	}
	if len(words) == 0 {
		return true
	}
	u, ok := unitOf(strings.Join(words, " "))
	c.unit = u
	c.m.unit = u
	return ok && u.dimension == dimensionOf[role]
}
