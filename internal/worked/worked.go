// Package worked holds findings to account: every number with a unit in a
// finding's sentences has to stand, as printed, among its workings.
//
// May import: finding, quantity and the standard library. For tests.
package worked

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ampstead/finding"
	"ampstead/quantity"
)

// number is a number with a unit, the kilo or milli in front of it apart.
var number = regexp.MustCompile(`([+−-]?\d+(?:\.\d+)?) ?(mV|V|kA|mA|A|Ah|kWh|Wh|kW|W|mΩ|Ω|%|°C|°F|K|mm²|cm²|m|ft|ms|s|min|h|J|mF)(?:[^\p{L}\p{N}/²]|$)`)

var scale = map[string]float64{"mV": 1e-3, "kA": 1e3, "mA": 1e-3, "kWh": 1e3, "kW": 1e3, "mΩ": 1e-3, "ms": 1e-3, "mF": 1e-3, "min": 60}

// Check fails the test for every number of a finding that nothing behind it
// gives, and for a finding without workings whose sentence has a number. Of those
// named, whose numbers are counted in a log, only workings in words are asked.
func Check(t *testing.T, list []finding.Finding, inWords ...string) {
	t.Helper()
	for _, f := range list {
		if slices.Contains(inWords, f.ID) {
			if len(f.Workings) == 0 {
				t.Errorf("%s has no workings", f.ID)
			}
			continue
		}
		for _, text := range Missing(f) {
			t.Errorf("%s at %s: nothing behind it gives %s, in %q", f.ID, f.Where, text, f.Found+" | "+f.Because+" | "+f.Mend)
		}
	}
}

// Missing lists the numbers of a finding's sentences that none of its workings gives.
func Missing(f finding.Finding) []string {
	var list []string
	known := values(f)
	text := f.Found + " | " + f.Because + " | " + f.Mend
	for _, name := range strings.Split(f.Where, ".") {
		if len(name) > 3 { // a name may hold a number: "12 V converter"
			text = strings.ReplaceAll(text, name, "it")
		}
	}
	for _, m := range number.FindAllStringSubmatch(text, -1) {
		if !anyGives(known, m[1], m[2]) && !said(f, m[1]+" "+m[2]) {
			list = append(list, m[1]+" "+m[2])
		}
	}
	return list
}

// said reports whether the words or the source of a working name the number.
func said(f finding.Finding, text string) bool {
	for _, w := range f.Workings {
		if strings.Contains(w.What+w.Source, text) {
			return true
		}
	}
	return false
}

func values(f finding.Finding) []finding.Value {
	var list []finding.Value
	for _, w := range f.Workings {
		for _, v := range append(append([]finding.Value{}, w.Inputs...), w.Outputs...) {
			if many, ok := v.Value.([]float64); ok {
				for _, x := range many {
					list = append(list, finding.Value{Value: x, Unit: v.Unit})
				}
			}
			list = append(list, v)
		}
	}
	return list
}

// anyGives reports whether a value shows as this number in this unit, but for
// half of its last digit.
func anyGives(known []finding.Value, digits, unit string) bool {
	_, decimals, _ := strings.Cut(digits, ".")
	want, err := strconv.ParseFloat(strings.ReplaceAll(digits, "−", "-"), 64)
	if err != nil {
		return false
	}
	half := 0.5001 * math.Pow10(-len(decimals))
	for _, v := range known {
		if text, isText := v.Value.(string); isText && strings.Contains(text, digits) {
			return true
		}
		got, ok := v.Value.(float64)
		if ok && math.Abs(math.Abs(inUnit(got, v.Unit, unit))-math.Abs(want)) <= math.Max(half, 0.0051*math.Abs(want)*roundedTo(digits)) {
			return true
		}
	}
	return false
}

// roundedTo is 1 for numbers printed to three digits, as quantities are, else 0.
func roundedTo(digits string) float64 {
	if len(strings.Trim(strings.ReplaceAll(digits, ".", ""), "-−+")) <= 3 {
		return 1
	}
	return 0
}

// inUnit shows a value of a base unit in another of the same kind; NaN of another kind.
func inUnit(v float64, base, unit string) float64 {
	factor, ok := scale[unit]
	if !ok {
		factor = 1
	}
	plain := strings.TrimLeft(unit, "mk")
	if unit == "m" || unit == "min" || unit == "ms" || unit == "mm²" {
		plain = map[string]string{"m": "m", "min": "s", "ms": "s", "mm²": "m²"}[unit]
	}
	switch {
	case unit == "°F" && base == quantity.Celsius.Base:
		return v*9/5 + 32
	case unit == "%" && base == "fraction":
		return v * 100
	case unit == "h" && base == "s":
		return v / 3600
	case unit == "ft" && base == "m":
		return v / 0.3048
	case unit == "in" && base == "m":
		return v / 0.0254
	case unit == "cm²" && base == "m²":
		return v * 1e4
	case unit == "mm²" && base == "m²":
		return v * 1e6
	case base != plain:
		return math.NaN()
	}
	return v / factor
}
