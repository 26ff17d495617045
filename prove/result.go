package prove

import (
	"ampstead/benchlog"
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
)

// Result is everything prove finds in a log. Errors are standard errors (one
// sigma) and include the meter's resolution, gain and offset as far as known.
// A number that could not be had is left out and a warning says why.
type Result struct {
	Layout    benchlog.Layout   `json:"layout"`
	Rows      int               `json:"rows"`
	Unread    []benchlog.Unread `json:"unread"` // rows that could not be read, at most twenty in full
	UnreadAll int               `json:"unread_rows"`
	Cell      string            `json:"cell"`
	Series    int               `json:"series"` // groups in series; 0 unknown
	Low       float64           `json:"low_v"`  // limits of a cell that the test is held against
	High      float64           `json:"high_v"`
	Segments  []Segment         `json:"segments"`
	Cycles    []Cycle           `json:"cycles"` // full or partial discharges and charges, in order

	CapacityAh  float64  `json:"capacity_ah"` // of the whole, from full to the first group's low limit: the latest discharge that shows it
	CapacityErr float64  `json:"capacity_error_ah"`
	CapacityHow string   `json:"capacity_basis"` // "discharge to the limit", "charge to the limit", "partial, extrapolated along the curve", "none"
	EnergyWh    float64  `json:"energy_wh"`
	EnergyErr   float64  `json:"energy_error_wh"`
	Resistance  float64  `json:"resistance_ohm"` // 10 s, whole, at its terminals, about half full, 25 °C
	ResistErr   float64  `json:"resistance_error_ohm"`
	ResistHow   string   `json:"resistance_basis"`
	Pulses      []Pulse  `json:"pulses"`
	Efficiency  float64  `json:"coulombic_efficiency,omitempty"` // charge out over charge in of a closed cycle
	Groups      []Group  `json:"groups"`
	Limiting    int      `json:"limiting_group"`          // 1 is at the negative end: ends the discharge; 0 unknown
	ChargeLimit int      `json:"charge_limiting_group"`   // would end the charge
	SpreadHigh  *float64 `json:"spread_high_v,omitempty"` // highest group above the mean, near full
	SpreadLow   *float64 `json:"spread_low_v,omitempty"`  // lowest group below the mean, near empty
	SpreadMid   *float64 `json:"spread_half_v,omitempty"` // highest less lowest at half the charge
	Rests       []Rest   `json:"rests"`
	RiseK       *float64 `json:"temperature_rise_k,omitempty"`

	Warnings []Warning `json:"warnings"` // faults of the log and of its sensors
	Grade    string    `json:"grade"`    // "accept", "derate", "refuse", "undecided"
	Reasons  []string  `json:"grade_reasons"`
	DerateAh float64   `json:"derate_to_ah,omitempty"`
	NotTold  []Step    `json:"not_told"` // evaluation steps for repurposed batteries and what this log tells of each

	Chart    Chart             `json:"-"` // thinned, for drawing
	Kind     *cell.Cell        `json:"-"`
	Findings []finding.Finding `json:"-"`
	Uses     []figure.Use      `json:"-"`
}

// Segment is a stretch of the log in which one thing was done.
type Segment struct {
	Kind     string  `json:"kind"` // "rest", "discharge", "charge", "hold" (constant voltage), "pulse"
	From     float64 `json:"from_s"`
	To       float64 `json:"to_s"`
	Rows     int     `json:"rows"`
	Cycle    int     `json:"cycle,omitempty"`
	MeanA    float64 `json:"mean_a"`    // positive charging
	ChargeAh float64 `json:"charge_ah"` // signed, integrated by trapezoids
	EnergyWh float64 `json:"energy_wh"`
	FromV    float64 `json:"from_v"`
	ToV      float64 `json:"to_v"`
	TempC    float64 `json:"temperature_c,omitempty"`
}

// Cycle is one discharge or charge with what it says of capacity.
type Cycle struct {
	Number      int     `json:"number"`
	Kind        string  `json:"kind"` // "discharge" or "charge"
	From        float64 `json:"from_s"`
	To          float64 `json:"to_s"`
	ChargeAh    float64 `json:"charge_ah"` // positive
	EnergyWh    float64 `json:"energy_wh"`
	Full        bool    `json:"full"`                  // from full to the limit, or the other way
	CapacityAh  float64 `json:"capacity_ah,omitempty"` // extrapolated when not full
	CapacityErr float64 `json:"capacity_error_ah,omitempty"`
}

// Pulse is a step of current and the resistance it shows.
type Pulse struct {
	At     float64   `json:"at_s"`
	Amps   float64   `json:"step_a"` // change of current, positive charging
	SoC    float64   `json:"soc,omitempty"`
	TempC  float64   `json:"temperature_c,omitempty"`
	Ohm1   float64   `json:"ohm_1s,omitempty"`
	Ohm10  float64   `json:"ohm_10s,omitempty"`
	Ohm30  float64   `json:"ohm_30s,omitempty"`
	Err10  float64   `json:"ohm_10s_error,omitempty"`
	Groups []float64 `json:"groups_ohm_10s,omitempty"`
}

// Group is one parallel group, 1 at the negative end.
type Group struct {
	Number      int      `json:"group"`
	CapacityAh  float64  `json:"capacity_ah"` // its own, between the limits, by fitting its curve
	CapacityErr float64  `json:"capacity_error_ah"`
	Ohm         float64  `json:"resistance_ohm"` // 10 s
	OhmErr      float64  `json:"resistance_error_ohm"`
	OffsetAh    float64  `json:"offset_ah"` // charge it stands below the fullest group; recoverable by balancing
	OffsetErr   float64  `json:"offset_error_ah"`
	Recoverable float64  `json:"recoverable_ah"` // what balancing alone would bring this group in the string
	LostAh      float64  `json:"lost_ah"`        // against the best group (or the rated capacity when known); balancing does not bring it back
	LostErr     float64  `json:"lost_error_ah"`
	LeakMA      *float64 `json:"leak_ma,omitempty"` // beyond the median group
	LeakErrMA   float64  `json:"leak_error_ma,omitempty"`
	LeakBound   bool     `json:"leak_is_upper_bound,omitempty"`
	RestV       float64  `json:"rest_v"` // before the load
	EndV        float64  `json:"end_v"`
	LowEnd      bool     `json:"low_end"`           // it is the one that reaches the low limit first
	HighEnd     bool     `json:"high_end"`          // it is the one that reaches the high limit first
	Unknown     string   `json:"unknown,omitempty"` // why capacity, offset and loss could not be had; they are 0 then
}

// Rest is what a stretch without current tells.
type Rest struct {
	From    float64 `json:"from_s"`
	Hours   float64 `json:"hours"`
	SlopeV  float64 `json:"slope_v_per_h"` // at its end
	Settled bool    `json:"settled"`       // relaxation is over
	LeakMA  float64 `json:"leak_ma,omitempty"`
	Bound   bool    `json:"upper_bound"` // only an upper bound can be had
	Note    string  `json:"note"`
}

// Warning is a fault of the log or a limit of what it can tell.
type Warning struct {
	ID      string `json:"id"` // "sense-through-leads", "current-offset", "group-sum", "clock-step", "flat-curve", ...
	Found   string `json:"found"`
	Because string `json:"because"` // what it spoils
}

// Step is one evaluation step for a repurposed battery.
type Step struct {
	Step string `json:"step"`
	Told string `json:"told"` // "yes", "partly", "no"
	Note string `json:"note"`
}

// Chart is the log thinned for drawing: at most two thousand instants, with the
// ends of every segment kept.
type Chart struct {
	Time   []float64   `json:"time_s"`
	Volts  []float64   `json:"voltage_v"`
	Amps   []float64   `json:"current_a"`
	Ah     []float64   `json:"charge_ah"` // running, positive charging, 0 at the start
	Groups [][]float64 `json:"groups_v"`  // one slice a group
	TempC  []float64   `json:"temperature_c"`
}

// Options say what is known beside the log.
type Options struct {
	Cell     string     // name of the library, or empty with Kind
	Kind     *cell.Cell // a rig's own cell; wins over Cell
	Groups   int        // in series; 0: from the log's columns, or from its voltage
	LowV     float64    // limits of one cell; 0: the cell's
	HighV    float64
	RatedAh  float64        // of the whole when new; 0 unknown
	Progress func(rows int) // may be nil
}
