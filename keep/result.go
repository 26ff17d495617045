package keep

import (
	"time"

	"ampstead/figure"
	"ampstead/finding"
)

// Result is what the logbook tells. Errors are one sigma.
type Result struct {
	Readings       int               `json:"readings"`
	Used           []Used            `json:"used"` // every reading, with its weight and why it weighs less
	From           string            `json:"from"` // first and last reading, RFC 3339
	To             string            `json:"to"`
	Groups         []Group           `json:"groups"`
	SpreadMV       float64           `json:"spread_mv"` // highest less lowest of the latest rested reading
	SpreadAh       float64           `json:"spread_ah"`
	SoC            *float64          `json:"soc,omitempty"` // of the bank, latest rested reading; absent on a flat curve
	SoCErr         float64           `json:"soc_error,omitempty"`
	SmallestLeakMA float64           `json:"smallest_visible_leak_ma"` // this meter, this rhythm, with the readings so far
	VisibleAfter   []Visible         `json:"visible_after"`            // how long until a leak of so many mA would show
	Trend          []Point           `json:"trend"`                    // spread at like conditions against time
	Balance        Balance           `json:"balance"`
	Capacity       Capacity          `json:"capacity"`
	Resistance     *Quantity         `json:"resistance,omitempty"`
	Life           *Life             `json:"life,omitempty"`
	Today          []Task            `json:"today"` // most urgent first
	Next           Visit             `json:"next_visit"`
	Back           []Change          `json:"back_into_design"` // what the log would change in rig.yaml, for the person to accept
	Findings       []finding.Finding `json:"-"`
	Uses           []figure.Use      `json:"-"`
}

// Used is a reading and what it is worth.
type Used struct {
	ID      string    `json:"id"`
	Taken   string    `json:"taken"`
	Weight  float64   `json:"weight"`        // 1 full, 0 set aside
	Why     string    `json:"why,omitempty"` // "0.4 h after a load: relaxation", "flat part of the curve"
	BankSoC float64   `json:"soc,omitempty"`
	Offsets []float64 `json:"offsets_ah,omitempty"` // each group against the median at common charge
	Errors  []float64 `json:"errors_ah,omitempty"`
}

// Group is one parallel group.
type Group struct {
	Number    int     `json:"group"`
	OffsetAh  float64 `json:"offset_ah"` // against the median of all groups, latest
	OffsetErr float64 `json:"offset_error_ah"`
	DriftMA   float64 `json:"drift_ma"` // a leak beyond the median group's is positive
	DriftErr  float64 `json:"drift_error_ma"`
	Drifts    bool    `json:"drifts"`                  // told from chance
	Since     string  `json:"since,omitempty"`         // date it could first be told
	Step      *Jump   `json:"step,omitempty"`          // a jump told from a slope: a link opened, capacity lost
	BleedAh   float64 `json:"bleed_ah"`                // to bleed (positive) to stand with the lowest
	Reached   string  `json:"reaches_limit,omitempty"` // date at which its offset brings a cell to an alarm at the settings
}

// Jump is a step in a group's offset.
type Jump struct {
	At   string  `json:"at"`
	Ah   float64 `json:"ah"`
	Err  float64 `json:"error_ah"`
	Like string  `json:"like"` // what it looks like
}

// Visible is when a leak would show.
type Visible struct {
	LeakMA float64 `json:"leak_ma"`
	Days   float64 `json:"days"`
}

// Point is one instant of a trend.
type Point struct {
	Taken  string    `json:"taken"`
	MV     float64   `json:"spread_mv"`
	Ah     float64   `json:"spread_ah"`
	Groups []float64 `json:"offsets_ah"`
	Weight float64   `json:"weight"`
}

// Balance is what balancing would do.
type Balance struct {
	Wanted  bool      `json:"wanted"`
	BleedAh []float64 `json:"bleed_ah"` // from each group, to the lowest
	AddAh   []float64 `json:"add_ah"`   // to each group, to the highest
	Hours   float64   `json:"hours"`    // with the balancer in the rig file
	GainWh  float64   `json:"gain_wh"`  // usable energy it brings
	Not     []string  `json:"not_now"`  // why not now: under load, flat curve, cold
}

// Quantity is a measured value.
type Quantity struct {
	Value      float64 `json:"value"`
	Err        float64 `json:"error"`
	Basis      string  `json:"basis"`
	When       string  `json:"when"`
	PerYear    float64 `json:"per_year,omitempty"` // trend
	PerYearErr float64 `json:"per_year_error,omitempty"`
}

// Capacity is what partial cycles tell.
type Capacity struct {
	Ah         float64         `json:"ah"`
	ErrAh      float64         `json:"error_ah"`
	Basis      string          `json:"basis"` // "12 partial cycles, total least squares", "the test of 2026-09-12", "rated"
	Pairs      int             `json:"pairs"`
	Share      float64         `json:"of_rated_fraction"`
	PerYear    float64         `json:"per_year_ah"`
	PerYearErr float64         `json:"per_year_error_ah"`
	Points     []CapacityPoint `json:"points"`
}

// CapacityPoint is one estimate in time.
type CapacityPoint struct {
	When string  `json:"when"`
	Ah   float64 `json:"ah"`
	Err  float64 `json:"error_ah"`
}

// Life is how much is left.
type Life struct {
	Model      string   `json:"model"`
	Multiplier float64  `json:"multiplier"` // fitted to this rig's own log; 1 when it says nothing yet
	ByCapacity Band     `json:"years_by_capacity"`
	ByFunction Band     `json:"years_by_function"`
	FirstShort string   `json:"first_short"` // "January 2034"
	Notes      []string `json:"notes"`
}

// Band is low, middle and high.
type Band struct {
	Low    float64 `json:"low"`
	Middle float64 `json:"middle"`
	High   float64 `json:"high"`
}

// Task is one thing to do.
type Task struct {
	ID      string `json:"id"`      // stable from day to day, "drift-4"
	Urgency string `json:"urgency"` // "now", "this week", "next visit", "sometime"
	Do      string `json:"do"`
	Why     string `json:"why"`
	By      string `json:"by,omitempty"` // date
}

// Visit is the next one.
type Visit struct {
	Date string `json:"date"` // 2027-01-10
	Why  string `json:"why"`
}

// Change is a value the log would put into the rig file.
type Change struct {
	Path  string `json:"path"`
	Now   string `json:"now"`
	Value string `json:"value"`
	Why   string `json:"why"`
}

// Options say what is known beside the readings.
type Options struct {
	Now  time.Time
	Life bool // run the years ahead: a second or two

	Counted []Counted // charge from live readings, beside the counter of the logbook
}

// Counted is charge counted by live current between two readings.
type Counted struct {
	From, To string  // IDs of the readings
	Ah       float64 // positive charging
	ErrAh    float64 // one sigma; 0 takes half a percent
}
