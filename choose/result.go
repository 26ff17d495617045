package choose

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/life"
)

// Result is everything choose finds out.
type Result struct {
	Candidates []Candidate       `json:"candidates"` // as in the rig file; the rig's own bank first, as "as it stands"
	Front      []Design          `json:"front"`      // the trade-off front of a search
	Search     *Search           `json:"search,omitempty"`
	Window     []WindowChoice    `json:"window"` // what charging to less and discharging to less brings and costs
	Pick       string            `json:"recommended_window"`
	Assumed    []string          `json:"assumed"`
	Findings   []finding.Finding `json:"-"`
	Uses       []figure.Use      `json:"-"`
	Figures    []string          `json:"-"`
}

// Candidate is one battery under consideration. Zero or absent: not known.
type Candidate struct {
	Name         string       `json:"name"`
	Kind         string       `json:"kind"` // "salvaged module", "new pack", "lead-acid"
	Cell         string       `json:"cell"`
	Family       string       `json:"family"`
	Series       int          `json:"series"`
	Strings      int          `json:"strings"`
	Fits         bool         `json:"fits"`    // every device works over its whole window
	Misfits      []Misfit     `json:"misfits"` // what must change
	LowV         float64      `json:"low_v"`
	HighV        float64      `json:"high_v"`
	CapacityAh   float64      `json:"capacity_ah"`    // now
	Basis        string       `json:"capacity_basis"` // "measured", "from 8 years and 120,000 km, wide band", "rated"
	UsableWh     float64      `json:"usable_wh"`
	UsableLow    float64      `json:"usable_low_wh"`
	UsableHigh   float64      `json:"usable_high_wh"`
	MassKg       float64      `json:"mass_kg"`
	VolumeL      float64      `json:"volume_l"`
	Price        float64      `json:"price"`
	FetchCost    float64      `json:"fetch_cost"`
	Currency     string       `json:"currency"`
	PerUsable    float64      `json:"price_per_usable_kwh"` // fetching counted, here and below
	MassPer      float64      `json:"mass_per_usable_kwh_kg"`
	VolumePer    float64      `json:"volume_per_usable_kwh_l"`
	PerDelivered float64      `json:"price_per_delivered_kwh"`
	DeliveredWh  float64      `json:"delivered_wh"`
	ByCapacity   float64      `json:"years_by_capacity"`
	ByFunction   float64      `json:"years_by_function"`
	Range        LifeRange    `json:"range"` // low and high of the years
	ColdChargeC  float64      `json:"coldest_charge_c"`
	FrostHours   float64      `json:"frost_locked_hours"` // on this route
	FrostWh      float64      `json:"frost_lost_wh"`
	HeaterWh     float64      `json:"heater_wh"`
	ShortHours   float64      `json:"unserved_hours"` // a year now, the middle of the weather years
	Unserved     float64      `json:"unserved_wh"`
	SoCMin       float64      `json:"soc_min"`
	Remarks      []Remark     `json:"remarks"` // failure and fire, by chemistry, with sources
	Ask          []Ask        `json:"ask"`     // what to ask and measure at the seller's
	Life         *life.Result `json:"life,omitempty"`
}

// LifeRange is the band of years.
type LifeRange struct {
	CapacityLow  float64 `json:"years_by_capacity_low"`
	CapacityHigh float64 `json:"years_by_capacity_high"`
	FunctionLow  float64 `json:"years_by_function_low"`
	FunctionHigh float64 `json:"years_by_function_high"`
}

// Misfit is a device that does not suit the battery.
type Misfit struct {
	Device   string `json:"device"`
	Found    string `json:"found"`
	Mend     string `json:"mend"`
	Exchange bool   `json:"exchange"` // the device must go; else it is changed or set anew
}

// Remark is something known of a chemistry.
type Remark struct {
	Text     string `json:"text"`
	Source   string `json:"source"` // key of the bibliography
	Standing string `json:"standing"`
}

// Ask is a question or a measurement at the seller's.
type Ask struct {
	Ask     string `json:"ask"`
	Measure bool   `json:"measure"` // with an instrument; else a question
	Good    string `json:"good"`    // what a good answer looks like, with numbers
	Refuse  string `json:"refuse"`  // what to walk away from
}

// Design is a whole rig that a search found.
type Design struct {
	Name       string            `json:"name"`
	Candidate  string            `json:"candidate"`
	Set        map[string]string `json:"set"` // rig-file changes: path to value
	Price      float64           `json:"price"`
	MassKg     float64           `json:"mass_kg"`
	ShortHours float64           `json:"unserved_hours"`
	Years      float64           `json:"years_of_life"` // the earlier of both ends
	YearsLow   float64           `json:"years_low"`
	YearsHigh  float64           `json:"years_high"`
	UsableWh   float64           `json:"usable_wh"`
	SoCMin     float64           `json:"soc_min"`
	Why        string            `json:"why"` // what it is best at
}

// Search says what was searched.
type Search struct {
	Designs int      `json:"designs"`
	Asked   int      `json:"asked"`
	Kept    int      `json:"within_constraints"`
	Seed    uint64   `json:"seed"`
	Years   int      `json:"weather_years"`
	Seconds float64  `json:"seconds"`
	Stopped bool     `json:"interrupted"`
	Varied  []string `json:"varied"`
	Limits  []string `json:"constraints"`
	Stands  *Design  `json:"as_it_stands,omitempty"` // the rig as it is in the file, reckoned as the designs are
	Cloud   []Spot   `json:"-"`                      // every design within the constraints, for a picture; the years of one that others beat may be those by capacity alone
}

// Spot is where a design lies among the others.
type Spot struct{ Price, MassKg, ShortHours, Years float64 }

// WindowChoice is one daily window.
type WindowChoice struct {
	Name       string    `json:"name"`
	LowV       float64   `json:"cell_low_v"`
	HighV      float64   `json:"cell_high_v"`
	UsableWh   float64   `json:"usable_wh"`
	ByCapacity life.Band `json:"years_by_capacity"`
	ShortHours float64   `json:"unserved_hours"` // in a year now
	ShortLate  float64   `json:"unserved_hours_after_ten_years"`
	Pick       bool      `json:"recommended"`
}

// Options say what to work out.
type Options struct {
	Years      int // weather years of each candidate; 0 is 3
	Seed       uint64
	NoWindow   bool // leaves the daily windows out
	Search     bool
	Designs    int     // 0 is 1000
	Budget     float64 // 0: none
	Mass       float64 // kg; 0: none
	ShortHours float64 // most hours short a year; 0: none
	Life       float64 // least years; 0: none
	Workers    int
	Resume     []byte             // what an interrupted search left
	Save       func([]byte) error // called now and then with what Resume takes; may be nil
	Progress   func(done, total int)
}
