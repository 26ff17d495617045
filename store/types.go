package store

import "time"

// Reading is one visit with a meter, as it was typed, pasted or imported. SI:
// volts, amperes (positive charging), °C. It is never overwritten: a correction
// is a new version of the same ID.
type Reading struct {
	ID      string     `json:"id"`      // chosen by whoever writes it first, so that sending twice stores once; 1 to 64 of a-z A-Z 0-9 - _
	Version int        `json:"version"` // 1, then 2 for the first correction, ...
	Taken   time.Time  `json:"taken"`
	Entered time.Time  `json:"entered"`  // when this version was written
	Groups  []*float64 `json:"groups_v"` // by group, 1 at the negative end first; nil was not read
	BankV   *float64   `json:"bank_v,omitempty"`
	Amps    *float64   `json:"current_a,omitempty"`
	TempsC  []float64  `json:"temperatures_c,omitempty"`
	RestH   *float64   `json:"rested_h,omitempty"`   // hours since the last current, as far as the person knows
	CountAh *float64   `json:"counter_ah,omitempty"` // charge counter of a battery monitor, positive charging, as it stands
	Meter   string     `json:"meter,omitempty"`      // name of one of the logbook's meters
	Note    string     `json:"note,omitempty"`
	Gone    bool       `json:"withdrawn,omitempty"` // this version withdraws the reading
}

// Meter is an instrument and how well it reads.
type Meter struct {
	Name   string  `json:"name"`
	StepV  float64 `json:"step_v"`  // resolution
	ErrorV float64 `json:"error_v"` // of one reading, one sigma
}

// Done is something done to the bank: groups bled, topped up, exchanged. It
// resets what drift is reckoned from.
type Done struct {
	ID    string    `json:"id"`
	At    time.Time `json:"at"`
	What  string    `json:"what"`                  // "balanced", "charged full", "group exchanged", "capacity test", "other"
	Ah    []float64 `json:"ah_by_group,omitempty"` // added to (or, negative, bled from) each group
	Value *float64  `json:"value,omitempty"`       // capacity of a test, Ah
	Note  string    `json:"note,omitempty"`
}

// Sample is one live value.
type Sample struct {
	At     time.Time
	Series string // "bank_v", "current_a", "group_4_v", "temperature_1_c", ...
	Value  float64
}

// Bucket is a span of live values.
type Bucket struct {
	From           time.Time
	Width          time.Duration // 0 for a single value
	N              int
	Min, Mean, Max float64
}

// Span says what buckets are made of.
type Span int

// The spans.
const (
	Raw Span = iota
	Minute
	Hour
	Day
)
