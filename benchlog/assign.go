package benchlog

import (
	"cmp"
	"fmt"
	"slices"
)

// column is a column of the file while its role is being found.
type column struct {
	index   int
	m       meaning
	s       stats
	role    Role
	unit    unit
	sign    float64 // -1 for a current that counts discharging as positive by its own column
	group   int
	fixed   bool // by the options
	guessed bool // by its values, not by a name
}

// columnsOf describes the columns of a sample.
func columnsOf(p *sample) []column {
	list := make([]column, p.shape.width)
	alphabet := isAlphabet(p.names)
	for i := range list {
		name, below := "", ""
		if i < len(p.names) {
			name = p.names[i]
		}
		if i < len(p.units) {
			below = p.units[i]
		}
		c := column{index: i, m: understand(name, below), s: statsOf(p, i), role: Ignored, sign: 1}
		if alphabet {
			c.m = understand("", "")
			c.m.name = name
		}
		if c.m.name == "" {
			c.m.name = fmt.Sprintf("column %d", i+1)
		}
		c.unit = c.m.unit
		if u, ok := unitOf(c.s.unit); ok && c.unit.symbol == "" {
			c.unit = u
			if c.m.tags&quantities == 0 {
				c.m.tags |= quantityOf[u.dimension]
			}
		}
		list[i] = c
	}
	return list
}

// isAlphabet reports names that are only a, b, c and so on: they say nothing.
func isAlphabet(names []string) bool {
	for i, name := range names {
		if i >= 26 || fold(name) != string(rune('a'+i)) {
			return false
		}
	}
	return len(names) > 2
}

// assign gives each column its role: from the options, the names, the values.
func assign(list []column) {
	byName(list)
	byBehaviour(list)
	settleGroups(list)
	settleVoltage(list)
	settleCurrent(list)
	settleTemperatures(list)
	settleCounters(list)
	magnitudes(list)
}

// byName gives the role a name tells, before rivals are settled.
func byName(list []column) {
	for i := range list {
		c := &list[i]
		if !c.fixed && c.s.n > 0 {
			c.role = c.named()
		}
	}
	if times := with(list, Time); len(times) > 1 {
		for _, c := range times {
			if c.m.name == "T" && !c.fixed {
				c.role = Temperature
			}
		}
	}
}

// named is the role the header tells; the order of roleOf settles names that say
// several things: a "cell temperature" is a temperature.
func (c *column) named() Role {
	t := c.m.tags
	number := c.s.numeric()
	switch {
	case t&(other|aLimit) != 0 || t&aRow != 0 && t&(quantities|aCycle|aStep) == 0:
		return Ignored
	case t&(aTime|aDate) != 0 && (number || c.s.timely()):
		return Time
	case c.s.words > c.s.n/2 && t&(aStep|charging|discharging) != 0:
		return Step
	case !number:
		return Ignored
	}
	for _, r := range roleOf {
		if t&r.tag == 0 {
			continue
		}
		if r.role == Charge {
			return c.counter()
		}
		return r.role
	}
	return c.unnamed()
}

// roleOf is the role that each tag gives to numbers.
var roleOf = []struct {
	tag  tag
	role Role
}{{aSoC, SoC}, {aTemperature, Temperature}, {anEnergy, Energy}, {aPower, Power}, {aCapacity, Charge}, {aVoltage, Voltage},
	{aCurrent, Current}, {aCycle, Cycle}, {aStep, Step}}

// unnamed is the role of a name without a quantity: "cell 3", "charge", "t".
func (c *column) unnamed() Role {
	t := c.m.tags
	switch {
	case t&(aGroup|aPack) != 0 && c.m.number >= 0 && cellLike(c.s):
		return Voltage
	case t&around != 0:
		return Temperature
	case t&(charging|discharging) != 0:
		return c.counter()
	case c.m.letter == "t" && c.m.number < 0 && t == 0 && c.s.falls*10 < c.s.rises:
		return Time
	case c.m.letter == "t" || c.m.letter == "c" && c.m.number < 0:
		return Temperature
	}
	return Ignored
}

// counter is the role of a counter of charge.
func (c *column) counter() Role {
	switch t := c.m.tags; {
	case t&charging != 0 && t&discharging != 0:
		return Charge
	case t&charging != 0:
		return ChargeIn
	case t&discharging != 0:
		return ChargeOut
	}
	return Charge
}

// cellLike reports whether values are those of one lithium cell in V or mV, or
// of a group of them.
func cellLike(s stats) bool {
	m := s.median
	return s.numeric() && (m > 1 && m < 5 || m > 1000 && m < 5000)
}

// with returns the columns of a role.
func with(list []column, role Role) []*column {
	var found []*column
	for i := range list {
		if list[i].role == role {
			found = append(found, &list[i])
		}
	}
	return found
}

// keepBest leaves the role to the column of the highest score, the first of
// equals, and to none besides; a column fixed by the options wins.
func keepBest(found []*column, score func(*column) float64) *column {
	if len(found) == 0 {
		return nil
	}
	best := slices.MaxFunc(found, func(a, b *column) int {
		if a.fixed != b.fixed {
			return cmp.Compare(boolTo(a.fixed), boolTo(b.fixed))
		}
		return cmp.Or(cmp.Compare(score(a), score(b)), cmp.Compare(b.index, a.index))
	})
	for _, c := range found {
		if c != best {
			c.role = Ignored
		}
	}
	return best
}

func boolTo(b bool) int {
	if b {
		return 1
	}
	return 0
}
