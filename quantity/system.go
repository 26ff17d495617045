package quantity

import (
	"fmt"
	"strings"
)

// System is the family of units a text is shown in.
type System int

// The two systems a person can choose.
const (
	Metric System = iota
	US
)

// ParseSystem reads "metric" or "us", in any case.
func ParseSystem(text string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "metric":
		return Metric, nil
	case "us":
		return US, nil
	}
	return Metric, fmt.Errorf("units %.40q: expected metric or us", text)
}

// String is the word ParseSystem reads.
func (s System) String() string {
	if s == US {
		return "us"
	}
	return "metric"
}
