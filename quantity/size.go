package quantity

import (
	"strconv"
	"strings"
)

// Gauge is the system a conductor size is named in.
type Gauge string

// The three ways conductor sizes are sold. SAE is thinner than AWG of the same
// number.
const (
	AWG Gauge = "AWG"
	SAE Gauge = "SAE"
	MM2 Gauge = "mm2"
)

// Size is a conductor size as bought: "2/0 AWG", "10 SAE", "35 mm2".
type Size struct {
	Gauge  Gauge
	Number float64 // mm² for MM2; gauge number n otherwise, with 1/0 = 0, 2/0 = -1, 3/0 = -2, 4/0 = -3
}

const sizeWant = `a conductor size such as "2/0 AWG", "10 SAE" or "35 mm2"`

// ParseSize reads a conductor size. Errors: *Error when the gauge system is
// missing or the number is not one of its sizes.
func ParseSize(text string) (Size, error) {
	s, why := parseSize(text)
	if why != "" {
		return Size{}, &Error{Text: text, Why: why, Want: sizeWant}
	}
	return s, nil
}

// parseSize takes the system behind the number or, as on many reels, AWG and
// SAE before it.
func parseSize(text string) (Size, string) {
	s := strings.ToLower(plain(strings.TrimSpace(text)))
	s = strings.Replace(s, "sqmm", "mm2", 1)
	if number, ok := strings.CutSuffix(s, "mm2"); ok {
		return metricSize(number)
	}
	for _, g := range []Gauge{AWG, SAE} {
		name := strings.ToLower(string(g))
		if number, ok := strings.CutSuffix(s, name); ok {
			return gaugeSize(number, g)
		}
		if number, ok := strings.CutPrefix(s, name); ok {
			return gaugeSize(number, g)
		}
	}
	return Size{}, whyNoSize(text)
}

func metricSize(number string) (Size, string) {
	v, rest, why := split(number)
	switch {
	case why != "":
		return Size{}, why
	case rest != "":
		return Size{}, "is not a number of mm2"
	case v <= 0 || v > 1000:
		return Size{}, "is not between 0 and 1000 mm2"
	}
	return Size{MM2, v}, ""
}

// gaugeSize reads 10, #10, 2/0 and 00, which are two ways to write the same.
func gaugeSize(number string, g Gauge) (Size, string) {
	number = strings.TrimPrefix(number, "#")
	if number != "" && strings.Trim(number, "0") == "" {
		number = strconv.Itoa(len(number)) + "/0"
	}
	if zeros, ok := strings.CutSuffix(number, "/0"); ok {
		n, err := strconv.ParseUint(zeros, 10, 8)
		if err != nil || n < 1 || n > 4 {
			return Size{}, "is not between 1/0 and 4/0"
		}
		return Size{g, 1 - float64(n)}, ""
	}
	n, err := strconv.ParseUint(number, 10, 8)
	if err != nil || n > 40 {
		return Size{}, "is not a whole gauge number from 0 to 40"
	}
	return Size{g, float64(n)}, ""
}

func whyNoSize(text string) string {
	_, unit, why := split(text)
	if why != "" {
		return why
	}
	if unit == "" || unit == "/0" {
		return "has no gauge system"
	}
	if plain(strings.ToLower(unit)) == "mm" {
		return "is a length; a cross-section is in mm2"
	}
	return explain("", unit, unknown)
}

// String writes the size as it is bought.
func (s Size) String() string {
	number := strconv.FormatFloat(s.Number, 'f', -1, 64)
	switch {
	case s.Gauge == "":
		return ""
	case s.Gauge == MM2:
		return number + " mm²"
	case s.Number <= 0:
		number = strconv.Itoa(1-int(s.Number)) + "/0"
	}
	return number + " " + string(s.Gauge)
}
