package benchlog

import (
	"math"
)

// magnitudes gives a unit to columns whose header says none, from the size of
// their values, and corrects a group's volts that can only be millivolts.
func magnitudes(list []column) {
	for i := range list {
		c := &list[i]
		switch c.role {
		case Voltage:
			c.usually("V", "mV", c.s.median > 1000)
		case GroupV:
			c.usually("V", "mV", c.s.median > 500)
			if c.unit.symbol == "V" && c.s.median > 500 {
				c.unit = units["mv"]
			}
		case Temperature:
			c.temperatureUnit()
		case Energy:
			c.usually("Wh", "mWh", false)
		case Power:
			c.usually("W", "mW", false)
		}
	}
	currentUnit(list)
}

// usually sets a unit where none is written: the first, or the second when
// the values are small parts of it.
func (c *column) usually(usual, small string, isSmall bool) {
	if c.unit.symbol != "" {
		return
	}
	if isSmall {
		usual = small
	}
	c.unit, _ = unitOf(usual)
}

// temperatureUnit: a battery above 65 °C in the middle of a log is not in °C.
func (c *column) temperatureUnit() {
	if c.unit.dimension == celsius {
		return
	}
	switch m := c.s.median; {
	case m > 250:
		c.unit = units["k"]
	case m > 65:
		c.unit = units["f"]
	default:
		c.unit = units["c"]
	}
}

// currentUnit: a current without a unit is in mA when it is thousands, when a
// counter of amp-hours beside it says so, or when it is whole numbers beside a
// voltage in mV.
func currentUnit(list []column) {
	milli := false
	for _, c := range list {
		if (c.role == Voltage || c.role == GroupV) && c.m.unit.symbol == "" && c.unit.symbol == "mV" {
			milli = true
		}
	}
	small := false
	for _, c := range with(list, Current) {
		size := math.Max(math.Abs(c.s.max), math.Abs(c.s.min))
		c.usually("A", "mA", size > 3000 || milli && c.s.whole && size >= 100 || countedInMilli(list, c))
		small = small || c.unit.symbol == "mA"
	}
	for i := range list {
		if c := &list[i]; c.role == Charge || c.role == ChargeIn || c.role == ChargeOut {
			c.usually("Ah", "mAh", small)
		}
	}
}

// countedInMilli reports whether a counter with a unit counts a thousandth of
// what the current would come to in A.
func countedInMilli(list []column, current *column) bool {
	times := with(list, Time)
	if len(times) != 1 || !times[0].s.numeric() || times[0].unit.scale == 0 {
		return false
	}
	for _, role := range []Role{Charge, ChargeIn, ChargeOut} {
		for _, c := range with(list, role) {
			if ratio := perAmpHour(times[0], current.s, c.s) * c.unit.scale; ratio > 0.5e-3 && ratio < 2e-3 {
				return true
			}
		}
	}
	return false
}
