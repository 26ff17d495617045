package benchlog

import (
	"fmt"
	"slices"
	"strings"
)

// describe puts a plan into words; sign and Line follow when the sign is told.
func (pl *plan) describe(list []column, packing string) Layout {
	l := Layout{Separator: separatorName(pl.shape.separator), Decimal: "point", Time: pl.time.words, Groups: pl.groups, Packing: packing}
	if pl.shape.mark == ',' {
		l.Decimal = "comma"
	}
	l.Header = boolTo(pl.shape.header > 0) + boolTo(pl.shape.units > 0)
	if pl.time.perRow > 0 {
		l.Time = fmt.Sprintf("row counter of %g s", pl.time.perRow)
	}
	for _, c := range list {
		out := Column{Name: c.m.name, Role: c.role, Unit: c.unit.symbol, Scale: c.unit.scale * c.sign, Group: c.group}
		if out.Scale == 0 {
			out.Scale = c.sign
		}
		l.Columns = append(l.Columns, out)
	}
	return l
}

func separatorName(mark byte) string {
	for _, s := range separators {
		if s.mark == mark {
			return s.name
		}
	}
	return ""
}

// say writes the layout in one line of plain words.
func (pl *plan) say(list []column, l *Layout) string {
	parts := []string{pl.sayTime(l), pl.sayVoltage(list), pl.sayCurrent(list, l), pl.sayGroups(list)}
	if n := pl.temps; n > 0 {
		parts = append(parts, counted(n, "temperature")+unitWords(with(list, Temperature), "°C"))
	}
	parts = append(parts, sayGuessed(list))
	line := strings.Join(slicesNotEmpty(parts), ", ")
	if l.Header == 0 {
		line = "no header: " + line
	}
	return line
}

func slicesNotEmpty(list []string) []string {
	var keep []string
	for _, s := range list {
		if s != "" {
			keep = append(keep, s)
		}
	}
	return keep
}

func (pl *plan) sayTime(l *Layout) string {
	switch {
	case pl.time.perRow > 0:
		return fmt.Sprintf("%g s from row to row", pl.time.perRow)
	case pl.time.numeric:
		return "time in " + l.Time
	}
	return "time as " + l.Time
}

func (pl *plan) sayVoltage(list []column) string {
	found := with(list, Voltage)
	switch {
	case len(found) == 0:
		return "pack V as the sum of the groups"
	case pl.groups > 0:
		return "pack " + found[0].unit.symbol
	}
	return "voltage " + found[0].unit.symbol
}

func (pl *plan) sayCurrent(list []column, l *Layout) string {
	found := with(list, Current)
	switch {
	case pl.powers:
		return "current as power over voltage, " + saySign(l)
	case len(found) == 0:
		return "no current"
	case pl.pair:
		return fmt.Sprintf("current %s in a column for charge and one for discharge", found[0].unit.symbol)
	}
	return "current " + found[0].unit.symbol + ", " + saySign(l)
}

// saySign says what a discharge looks like in the file.
func saySign(l *Layout) string {
	how := ""
	if strings.HasPrefix(l.SignHow, "assumed") {
		how = " (assumed)"
	}
	switch l.Sign {
	case chargePositive:
		return "discharge negative" + how
	case dischargePositive:
		return "discharge positive" + how
	}
	return "without a sign, " + l.SignHow
}

func (pl *plan) sayGroups(list []column) string {
	found := with(list, GroupV)
	if len(found) == 0 {
		return ""
	}
	first, last := found[0], found[0]
	for _, c := range found {
		if c.group < first.group {
			first = c
		}
		if c.group > last.group {
			last = c
		}
	}
	return fmt.Sprintf("%s (%s to %s%s)", counted(len(found), "group"), first.m.name, last.m.name, unitWords(found, "V"))
}

// unitWords names the units where they are not all the usual one.
func unitWords(found []*column, usual string) string {
	var list []string
	for _, c := range found {
		if !slices.Contains(list, c.unit.symbol) {
			list = append(list, c.unit.symbol)
		}
	}
	if len(list) == 1 && list[0] == usual {
		return ""
	}
	return " in " + strings.Join(list, " and ")
}

// sayGuessed names the columns whose role was told by their values alone.
func sayGuessed(list []column) string {
	var names []string
	for _, c := range list {
		if c.guessed && c.role != Ignored {
			names = append(names, c.m.name+" as "+string(c.role))
		}
	}
	if len(names) == 0 {
		return ""
	}
	if len(names) > 6 {
		names = append(names[:5:5], counted(len(names)-5, "more column"))
	}
	return "told by the values alone: " + strings.Join(names, ", ")
}
