package benchlog

import (
	"cmp"
	"math"
	"slices"
)

// settleGroups tells the columns of single groups from that of the whole:
// several numbered voltages, each of one cell's size.
func settleGroups(list []column) {
	var found []*column
	for _, c := range with(list, Voltage) {
		if !c.fixed && c.m.number >= 0 && cellLike(c.s) {
			found = append(found, c)
		}
	}
	named := slices.DeleteFunc(slices.Clone(found), func(c *column) bool { return c.m.tags&aGroup == 0 })
	if len(named) > 1 {
		found = named
	}
	if distinct(found) > 1 {
		for _, c := range found {
			c.role = GroupV
		}
	}
	numberGroups(with(list, GroupV))
}

func distinct(found []*column) int {
	seen := map[int]bool{}
	for _, c := range found {
		seen[c.m.number] = true
	}
	return len(seen)
}

// numberGroups numbers groups from 1 in the order of their names' numbers.
func numberGroups(found []*column) {
	slices.SortStableFunc(found, func(a, b *column) int { return cmp.Compare(a.order(), b.order()) })
	for i, c := range found {
		c.group = i + 1
	}
}

func (c *column) order() int {
	if c.group > 0 {
		return c.group
	}
	return c.m.number
}

// settleVoltage keeps one voltage of the whole.
func settleVoltage(list []column) {
	keepBest(with(list, Voltage), func(c *column) float64 {
		score := 0.0
		if c.m.tags&aPack != 0 {
			score += 2
		}
		if c.m.tags&aVoltage != 0 {
			score++
		}
		if c.m.number < 0 {
			score++
		}
		if c.m.tags&aGroup != 0 {
			score--
		}
		return score
	})
}

// settleCurrent keeps one current, or a pair of one for each direction.
func settleCurrent(list []column) {
	found := with(list, Current)
	in, out := direction(found, charging), direction(found, discharging)
	if in != nil && out != nil {
		for _, c := range found {
			if c != in && c != out {
				c.role = Ignored
			}
		}
		out.sign = -1
		return
	}
	keepBest(found, func(c *column) float64 {
		score := math.Min(1, math.Abs(c.s.max-c.s.min))
		if c.m.tags&aPack != 0 {
			score++
		}
		if c.m.number < 0 {
			score++
		}
		return score
	})
}

// direction returns the one current that counts only charging or discharging.
func direction(found []*column, way tag) *column {
	for _, c := range found {
		if c.m.tags&(charging|discharging) == way && c.m.tags&(positive|negative) == 0 {
			return c
		}
	}
	return nil
}

// settleTemperatures leaves out the air around when the battery is measured.
func settleTemperatures(list []column) {
	found := with(list, Temperature)
	own := slices.ContainsFunc(found, func(c *column) bool { return c.m.tags&around == 0 })
	for _, c := range found {
		if own && c.m.tags&around != 0 && !c.fixed {
			c.role = Ignored
		}
	}
}

// settleCounters keeps one column for each counter; a counter of one direction
// that stands alone and is named only "charge" counts both ways.
func settleCounters(list []column) {
	whole := func(c *column) float64 { return -float64(boolTo(c.m.tags&(aStep|aCycle) != 0)) }
	in, out := keepBest(with(list, ChargeIn), whole), keepBest(with(list, ChargeOut), whole)
	if in != nil && out == nil && in.m.worded&(counting|aCapacity) == 0 {
		in.role = Charge
	}
	for _, role := range []Role{Charge, Power, SoC, Cycle} {
		keepBest(with(list, role), whole)
	}
	settleEnergy(list)
	keepBest(with(list, Step), func(c *column) float64 { return float64(c.s.words) })
}

// settleEnergy keeps the counters of both directions, or else one.
func settleEnergy(list []column) {
	found := with(list, Energy)
	in, out := direction(found, charging), direction(found, discharging)
	if in == nil || out == nil {
		keepBest(found, func(c *column) float64 { return 0 })
		return
	}
	for _, c := range found {
		if c != in && c != out {
			c.role = Ignored
		}
	}
	out.sign = -1
}
