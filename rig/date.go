package rig

import (
	"fmt"
	"time"
)

// Date is a calendar day.
type Date struct{ time.Time }

// ParseDate reads 2026-11-01.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date; expected year-month-day such as \"2026-11-01\"", text)
	}
	return Date{t}, nil
}

func (d Date) String() string { return d.Format(time.DateOnly) }
