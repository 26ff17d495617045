package life

// Options say how far ahead to look and from where.
type Options struct {
	Years      int     // at most; 0 is 30
	Every      int     // the year on the road is run again every so many years; 0: whenever capacity has changed by 2 %
	Seed       uint64  // of the weather
	Model      string  // of physics/ageing; "" is the first for the cell
	Multiplier float64 // on the loss, from the rig's own log; 0 is 1
	Capacity   float64 // at the start, share of rated; 0: as measured in the rig, or 1
	Resistance float64 // at the start, factor on new; 0 unknown
	EndShare   float64 // end by capacity, share of rated; 0 is 0.7
	EndHours   float64 // end by function: more hours short in a year than this; 0: 24 more than today
	Progress   func(done, total int)
}

// Result is the years ahead.
type Result struct {
	Model       string    `json:"model"`
	Title       string    `json:"model_title"`
	Start       float64   `json:"start_capacity_fraction"`
	Basis       string    `json:"start_basis"` // "measured", "stated use", "new"
	Years       []Year    `json:"years"`
	ByCapacity  Band      `json:"years_by_capacity"` // the horizon when it is not reached; see Beyond
	ByFunction  Band      `json:"years_by_function"`
	Beyond      []string  `json:"beyond"`  // which ends lie beyond the horizon
	Outside     []string  `json:"outside"` // where the model was used outside its range
	Second      []Opinion `json:"second_opinions"`
	FirstShort  string    `json:"first_short"`  // month of the first winter short: "January of year 8"; "" beyond
	DeliveredWh Band      `json:"delivered_wh"` // over the life, to the earlier end
	Figures     []string  `json:"-"`
}

// Year is one year of the bank's life. Shares are of rated capacity.
type Year struct {
	Age        int     `json:"age"` // years from now at its end
	Low        float64 `json:"capacity_low"`
	Middle     float64 `json:"capacity"`
	High       float64 `json:"capacity_high"`
	Resistance float64 `json:"resistance_factor,omitempty"`
	ShortHours float64 `json:"unserved_hours"`
	SoCMin     float64 `json:"soc_min"`
	FullCycles float64 `json:"full_cycles"`
	ServedWh   float64 `json:"served_wh"`
}

// Band is low, middle and high.
type Band struct {
	Low    float64 `json:"low"`
	Middle float64 `json:"middle"`
	High   float64 `json:"high"`
}

// Opinion is another model's answer to the same use.
type Opinion struct {
	Model      string  `json:"model"`
	ByCapacity float64 `json:"years_by_capacity"`
	Note       string  `json:"note"`
}
