package live

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	q "ampstead/quantity"
	"ampstead/rig"
)

// Names of the live series that there is one of, as the logbook keeps them.
const (
	BankVoltage   = "bank_v"
	Current       = "current_a"
	ChargeCounter = "counter_ah"
	SoC           = "soc_fraction"
)

// Group is the series of a group's voltage, 1 at the negative end.
func Group(number int) string { return "group_" + strconv.Itoa(number) + "_v" }

// Temperature is the series of a sensor.
func Temperature(number int) string { return "temperature_" + strconv.Itoa(number) + "_c" }

// seriesOf is the series of what a topic gives.
func seriesOf(gives string, number int) string {
	switch gives {
	case rig.GivesBankVoltage:
		return BankVoltage
	case rig.GivesCurrent:
		return Current
	case rig.GivesCounter:
		return ChargeCounter
	case rig.GivesSoC:
		return SoC
	case rig.GivesTemperature:
		return Temperature(number)
	}
	return Group(number)
}

// Describe gives the plain name of a live series and what it is measured in; ok is
// false for what is none, such as the record of an alarm.
func Describe(series string) (title string, dim *q.Dimension, ok bool) {
	switch series {
	case BankVoltage:
		return "bank", q.Volts, true
	case Current:
		return "current", q.Amperes, true
	case ChargeCounter:
		return "charge counter", q.AmpereHours, true
	case SoC:
		return "state of charge", q.Fraction, true
	}
	if n, ok := numberIn(series, "group_", "_v"); ok {
		return fmt.Sprintf("group %d", n), q.Volts, true
	}
	if n, ok := numberIn(series, "temperature_", "_c"); ok {
		return fmt.Sprintf("sensor %d", n), q.Celsius, true
	}
	return "", nil, false
}

func numberIn(series, before, after string) (int, bool) {
	text, ok := strings.CutPrefix(series, before)
	if !ok {
		return 0, false
	}
	if text, ok = strings.CutSuffix(text, after); !ok {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil && n > 0 && strconv.Itoa(n) == text
}

// Compare orders series for showing: the whole bank first, then groups, then
// sensors, by number.
func Compare(a, b string) int { return cmp.Compare(place(a), place(b)) }

func place(series string) int {
	for i, s := range []string{BankVoltage, Current, SoC, ChargeCounter} {
		if s == series {
			return i
		}
	}
	if n, ok := numberIn(series, "group_", "_v"); ok {
		return 10 + n
	}
	n, _ := numberIn(series, "temperature_", "_c")
	return 10000 + n
}
