package life

import "ampstead/physics/ageing"

// Options say how far ahead to look and from where.
type Options struct {
	Years      int           // at most; 0 is 30
	Step       float64       // the year on the road is run again at capacities that lie this share apart; 0 is 2 %
	Seed       uint64        // of the weather
	Model      string        // of physics/ageing; "" is the first for the cell
	Multiplier float64       // on the loss, from the rig's own log; the model's band moves with it; 0 is the band's middle
	Spread     ageing.Band   // of that multiplier, from the rig's own log; the zero Band: the model's
	Capacity   float64       // at the start, share of rated; 0: as measured in the rig, or as Use leaves it
	Resistance float64       // at the start, factor on new; 0 unknown
	Use        ageing.Stress // its past as stated; the zero Stress: none stated
	EndShare   float64       // end by capacity, share of rated; 0 is 0.7, of lead-acid 0.8
	EndHours   float64       // end by function: more hours short in a year than this; 0: 24 more than today
	Workers    int           // years on the road run at once; 0 is one for each core
	Progress   func(done, total int)
}

// Result is the years ahead.
type Result struct {
	Model       string    `json:"model"`
	Title       string    `json:"model_title"`
	Start       float64   `json:"start_capacity_fraction"`
	StartRange  Band      `json:"start_capacity_range"` // differs where the capacity was not measured
	Basis       string    `json:"start_basis"`          // "measured", "stated use", "new"
	EndShare    float64   `json:"end_capacity_fraction"`
	EndHours    float64   `json:"end_unserved_hours"`
	Years       []Year    `json:"years"`
	ByCapacity  Band      `json:"years_by_capacity"` // the horizon when it is not reached; see Beyond
	ByFunction  Band      `json:"years_by_function"`
	Beyond      []string  `json:"beyond"`  // which ends lie beyond the horizon
	Outside     []string  `json:"outside"` // where the model was used outside its range
	Silent      string    `json:"silent"`  // what the model says nothing about
	Second      []Opinion `json:"second_opinions"`
	FirstShort  string    `json:"first_short"`  // month of the first winter short: "January of year 8"; "" beyond
	DeliveredWh Band      `json:"delivered_wh"` // by the bank at its terminals, to the earlier end
	Figures     []string  `json:"-"`
}

// Year is one year of the bank's life. Shares are of rated capacity.
type Year struct {
	Age        int     `json:"age"` // years from now at its end
	Low        float64 `json:"capacity_low"`
	Middle     float64 `json:"capacity"`
	High       float64 `json:"capacity_high"`
	Resistance float64 `json:"resistance_factor,omitempty"` // on that of a new cell
	ShortHours float64 `json:"unserved_hours"`
	SoCMin     float64 `json:"soc_min"`
	FullCycles float64 `json:"full_cycles"` // over the capacity left
	ServedWh   float64 `json:"served_wh"`   // to the appliances, the sun's direct share included
	GaveWh     float64 `json:"bank_gave_wh"`
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
