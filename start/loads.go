package start

import (
	"fmt"
	"regexp"
	"strings"

	"ampstead/quantity"
)

// load is an appliance with its habit. Powers and hours are typical ones; common
// practice, no source.
type load struct {
	value, label string
	watts, hours float64
	mains        bool   // it needs mains
	either       bool   // on mains where there is an inverter, else on 12 V
	rest         string // days, when, season and what it follows, as in the file
	typed        bool
}

var appliances = []load{
	{value: "lights", label: "Lights", watts: 15, hours: 4, rest: "when: evening"},
	{value: "fridge", label: "Compressor fridge", watts: 45, hours: 8, rest: "follows: warmth"},
	{value: "pump", label: "Water pump", watts: 45, hours: 0.1},
	{value: "phones", label: "Phones and tablets", watts: 15, hours: 3},
	{value: "laptop", label: "Laptop", watts: 55, hours: 4, either: true, rest: "days: weekdays"},
	{value: "warm-air", label: "Fan of a fuel heater", watts: 20, hours: 8, rest: "season: cold half"},
	{value: "roof-fan", label: "Roof fan", watts: 20, hours: 6, rest: "season: warm half"},
	{value: "screen", label: "Television or large screen", watts: 40, hours: 2, either: true, rest: "when: evening"},
	{value: "kettle", label: "Kettle", watts: 1200, hours: 0.25, mains: true, rest: "when: morning"},
	{value: "ring", label: "Cooking ring (induction)", watts: 1400, hours: 0.75, mains: true, rest: "when: evening"},
	{value: "washing", label: "Washing machine", watts: 500, hours: 1, mains: true, rest: "days: one in seven, when: midday"},
	{value: "workshop", label: "Workshop tools, a press", watts: 800, hours: 0.5, mains: true, rest: "days: weekdays, when: daylight"},
}

// modest is what is taken when nobody says what runs.
const modest = "lights, fridge, pump, phones, laptop, warm-air"

func applianceChoices() []Choice {
	list := make([]Choice, len(appliances), len(appliances)+1)
	for i, l := range appliances {
		note := fmt.Sprintf("taken as %s, %s a day", quantity.Watts.Text(l.watts, quantity.Metric), hoursText(l.hours))
		if l.mains {
			note += ", on mains"
		}
		list[i] = Choice{l.value, l.label, note}
	}
	return append(list, Choice{None, "Nothing yet", ""})
}

func hoursText(h float64) string {
	if h < 1 {
		return fmt.Sprintf("%.0f min", 60*h)
	}
	return fmt.Sprintf("%g h", h)
}

var ownLoad = regexp.MustCompile(`^([^0-9,]{1,40}) ([0-9][0-9.]* ?k?W) ([0-9][0-9.]* ?(?:h|min))$`)

// typedLoad reads an appliance that is not in the list: "sewing machine 90 W 2 h".
func typedLoad(text string) (load, error) {
	m := ownLoad.FindStringSubmatch(text)
	bad := &Problem{Message: fmt.Sprintf("%.60q is not understood", text), Expected: "what it is, its watts, its time a day", Example: "sewing machine 90 W 2 h"}
	if m == nil || strings.ContainsAny(m[1], ".[]\"") {
		return load{}, bad
	}
	watts, err := amount(quantity.Watts, m[2], 0.1, 20000)
	if err != nil {
		return load{}, err
	}
	seconds, err := amount(quantity.Seconds, m[3], 0, 86400)
	if err != nil {
		return load{}, err
	}
	return load{value: text, label: m[1], watts: watts, hours: seconds / 3600, either: true, typed: true}, nil
}

func findLoad(value string) (load, error) {
	for _, l := range appliances {
		if l.value == value {
			return l, nil
		}
	}
	return typedLoad(value)
}
