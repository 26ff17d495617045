package fit

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	q "ampstead/quantity"
)

// Result is everything fit finds out about a rig.
type Result struct {
	Cell     CellInfo          `json:"cell"`
	Window   Window            `json:"window"` // the safe window: no cell ever leaves it
	Daily    Window            `json:"daily"`  // where the recommended settings keep it day by day
	Layers   []Layer           `json:"layers"` // recommended, from the lowest voltage to the highest
	Today    []Layer           `json:"today"`  // the same layers as set today; absent ones are missing
	Settings []Setting         `json:"settings"`
	Choices  []Choice          `json:"choices"` // wider and narrower daily windows
	Warmth   []Mark            `json:"warmth"`  // temperature marks in rising order
	Kind     *cell.Cell        `json:"-"`       // the cell with the rig's own curve and limits worked in
	Findings []finding.Finding `json:"-"`       // top-level key of every stage
	Uses     []figure.Use      `json:"-"`       // every figure used, in order
}

// CellInfo says which cell the result rests on.
type CellInfo struct {
	Name      string  `json:"name"` // as the rig file calls it, "own" for its owner's
	Title     string  `json:"title"`
	Family    string  `json:"family"`
	Series    int     `json:"series"`
	Parallel  int     `json:"parallel"` // cells in parallel in a group, all strings
	Capacity  float64 `json:"capacity_ah"`
	RatedAh   float64 `json:"rated_capacity_ah"`
	Measured  bool    `json:"measured"`
	Basis     string  `json:"capacity_basis"` // "measured", "estimated from its past" or "rated"
	Ohm       float64 `json:"bank_resistance_ohm"`
	SpreadHi  float64 `json:"spread_high_v"`
	SpreadLo  float64 `json:"spread_low_v"`
	SpreadHow string  `json:"spread_basis"` // "measured" or "assumed"
}

// Window is a range of voltage with the energy inside it.
type Window struct {
	CellLowV     float64      `json:"cell_low_v"`
	CellHighV    float64      `json:"cell_high_v"`
	BankLowV     float64      `json:"bank_low_v"`
	BankHighV    float64      `json:"bank_high_v"`
	BankNominalV float64      `json:"bank_nominal_v"`
	LowSoC       float64      `json:"low_soc_fraction"`
	HighSoC      float64      `json:"high_soc_fraction"`
	UsableAh     float64      `json:"usable_charge_ah"`
	UsableWh     float64      `json:"usable_energy_wh"`
	How          []figure.Use `json:"-"`
}

// Layer names, in rising voltage.
const (
	HarmLow     = "harm low"
	DisconnLow  = "disconnect low"
	AlarmLow    = "alarm low"
	DailyLow    = "daily low"
	DailyHigh   = "daily high"
	AlarmHigh   = "alarm high"
	DisconnHigh = "disconnect high"
	HarmHigh    = "harm high"
)

// Layer is one step of the ladder. All _v fields except device_set_v are volts
// of the cell nearest to harm, so that layers of cell meters and of bank devices
// compare: for bank devices set_v is the setting over the groups in series.
// low_v and high_v are where that cell can be when the layer acts, with every
// tolerance, sensing drop, delay and the spread between groups against you.
type Layer struct {
	Name        string       `json:"name"`
	Device      string       `json:"device"`
	Setting     string       `json:"setting"`
	Path        string       `json:"path,omitempty"` // of the setting in the rig file
	Side        string       `json:"side"`           // "high" or "low"
	SetV        float64      `json:"set_v"`
	LowV        float64      `json:"low_v"`
	HighV       float64      `json:"high_v"`
	LikelyLowV  float64      `json:"likely_low_v"` // root-sum-square, for display only
	LikelyHighV float64      `json:"likely_high_v"`
	MarginMV    float64      `json:"margin_mv"`         // worst-case gap to the next layer towards harm; of a harm layer, to the layer inside it
	LikelyMV    float64      `json:"likely_margin_mv"`  // the same by root-sum-square
	DeviceSetV  float64      `json:"device_set_v"`      // as dialled in on the device
	Members     []Layer      `json:"members,omitempty"` // every device of this layer when there is more than one
	How         []figure.Use `json:"-"`
}

// Setting is one line of a device's settings sheet.
type Setting struct {
	Device  string       `json:"device"`
	Kind    string       `json:"kind"` // "solar charger", "voltage relay", ...
	Setting string       `json:"setting"`
	Path    string       `json:"path"`  // in the rig file
	Value   any          `json:"value"` // float64 in unit, or "off"
	Unit    string       `json:"unit"`  // SI: V, A, s, °C, V/K; empty for "off"
	Today   any          `json:"today"` // same, or "not given"
	Because string       `json:"because"`
	Differs bool         `json:"differs"` // today is not what is recommended
	Dim     *q.Dimension `json:"-"`
	How     []figure.Use `json:"-"`
}

// Choice is one wider or narrower daily window and what it costs.
type Choice struct {
	Name        string       `json:"name"` // "gentler", "as recommended", "fuller", "to the limits"
	CellLowV    float64      `json:"cell_low_v"`
	CellHighV   float64      `json:"cell_high_v"`
	UsableWh    float64      `json:"usable_energy_wh"`
	EnergyShare float64      `json:"energy_share_fraction"`  // of the recommended window's energy
	MeanStress  float64      `json:"calendar_stress_factor"` // calendar ageing resting at its top, relative to the recommended window; 0 when no model
	Fits        bool         `json:"layers_fit"`             // do the layers still fit outside it
	Why         string       `json:"why"`
	How         []figure.Use `json:"-"`
}

// Mark is a temperature at which something acts.
type Mark struct {
	Name    string  `json:"name"`
	Device  string  `json:"device"`
	TempC   float64 `json:"temperature_c"`
	LowC    float64 `json:"low_c"`
	HighC   float64 `json:"high_c"`
	Because string  `json:"because"`

	How []figure.Use `json:"-"`
}
