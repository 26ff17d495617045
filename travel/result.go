package travel

import "ampstead/finding"

// Result is everything travel finds out about a rig.
type Result struct {
	Year     Year              `json:"year"`           // the first weather year, or the first year of the file
	Months   []Month           `json:"months"`         // twelve, January first
	Stays    []Stay            `json:"stays"`          // in the order of the route
	Bands    Bands             `json:"bands"`          // over all weather years
	Weather  Weather           `json:"weather"`        // what the weather rests on
	Limits   []Limit           `json:"limits"`         // what more of each thing would bring, best first
	Days     []Day             `json:"days"`           // the first year day by day, for the ribbon
	Span     *Span             `json:"span,omitempty"` // a span in full detail, when asked for
	Assumed  []string          `json:"assumed"`        // what the file does not say and was taken
	Findings []finding.Finding `json:"-"`
	Figures  []string          `json:"-"` // names of the figures behind the models
}

// Energies are sums over a span of time, Wh unless the key says otherwise. Each
// watt-hour of sun is counted once, and so is each asked for:
//
//	SunOffered = SunCaught + LostFull + LostFrost + LostLimit + LostStopped + Conversion
//	Load       = Served + Unserved
type Energies struct {
	SunOffered    float64 `json:"sun_offered_wh"`  // what the panels could have given
	SunCaught     float64 `json:"sun_caught_wh"`   // what the solar chargers gave at their terminals
	LostFull      float64 `json:"lost_full_wh"`    // refused because the bank was full
	LostFrost     float64 `json:"lost_frost_wh"`   // refused because the bank was too cold
	LostLimit     float64 `json:"lost_limit_wh"`   // refused by a charger's current limit
	LostStopped   float64 `json:"lost_stopped_wh"` // refused while a guard held the charger or the bank off
	Conversion    float64 `json:"conversion_wh"`   // lost in the solar chargers
	Mains         float64 `json:"mains_wh"`        // given by mains chargers
	Alternator    float64 `json:"alternator_wh"`   // given by alternator chargers
	Load          float64 `json:"load_wh"`         // asked for by the appliances
	Served        float64 `json:"served_wh"`       // what they got
	Unserved      float64 `json:"unserved_wh"`
	Overhead      float64 `json:"overhead_wh"`        // idle draw and losses of converters and inverters, coils
	UnservedH     float64 `json:"unserved_hours"`     // hours with at least one appliance not served
	Heater        float64 `json:"heater_wh"`          // drawn by the heater
	FrostLockedH  float64 `json:"frost_locked_hours"` // hours in which sun, mains or alternator was there and frost kept it out
	FrostChargeAh float64 `json:"frost_charge_ah"`    // charge that nothing in the rig would have kept out at or below the cell's frost limit: harm
	ColdExcessAh  float64 `json:"cold_excess_ah"`     // charge beyond the current the cells bear at their temperature, below 16 °C
	Disconnected  float64 `json:"disconnected_hours"` // hours with the bank cut off from the bus
}

// Year sums a year.
type Year struct {
	Energies
	SoCMin        float64 `json:"soc_min"` // fraction
	SoCP5         float64 `json:"soc_p5"`  // fraction it is below for one hour in twenty
	BankTempMin   float64 `json:"bank_temp_min_c"`
	BankTempMax   float64 `json:"bank_temp_max_c"`
	ColdestCharge float64 `json:"coldest_charge_c"` // coldest cell while charging
	CellHighV     float64 `json:"cell_high_v"`      // highest and lowest cell voltage reached
	CellLowV      float64 `json:"cell_low_v"`
	BusHighV      float64 `json:"bus_high_v"` // highest voltage the devices on the bus saw
	ChargePeakA   float64 `json:"charge_peak_a"`
	DrawPeakA     float64 `json:"draw_peak_a"`    // appliances starting included
	ClosedByHand  int     `json:"closed_by_hand"` // times someone had to hold a disconnect closed
	FullCycles    float64 `json:"full_cycles"`    // discharge over capacity
	HoursHigh     float64 `json:"hours_above_90_percent"`
	HoursHot      float64 `json:"hours_above_35_c"`
	Error         float64 `json:"energy_error"` // the largest gap in the energy books, relative
}

// Month sums one calendar month.
type Month struct {
	Month int `json:"month"` // 1 to 12
	Energies
	SoCMin      float64     `json:"soc_min"`
	BankTempMin float64     `json:"bank_temp_min_c"`
	Stress      MonthStress `json:"-"` // for the ageing models
}

// Stay sums one stay of the route, with the days after it until the next.
type Stay struct {
	Name      string  `json:"name"`
	From      string  `json:"from"`
	To        string  `json:"to"`
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
	Days      int     `json:"days"`
	Energies
	SoCMin float64 `json:"soc_min"`
}

// Day is one day of the first year.
type Day struct {
	Date        string  `json:"date"`
	Place       string  `json:"place"`
	SunOffered  float64 `json:"sun_offered_wh"`
	SunCaught   float64 `json:"sun_caught_wh"`
	Load        float64 `json:"load_wh"`
	Unserved    float64 `json:"unserved_wh"`
	LostFrost   float64 `json:"lost_frost_wh"`
	SoCLow      float64 `json:"soc_low"`
	SoCHigh     float64 `json:"soc_high"`
	TempLow     float64 `json:"bank_temp_low_c"`
	TempHigh    float64 `json:"bank_temp_high_c"`
	AirLow      float64 `json:"air_low_c"`
	AirHigh     float64 `json:"air_high_c"`
	SoCBandLow  float64 `json:"soc_band_low"`  // lowest of the day, over the years: 10th percentile
	SoCBandHigh float64 `json:"soc_band_high"` // 90th percentile of the day's highest
}

// Bands are low, middle and high over the weather years (10th, 50th, 90th
// percentile; the extremes when there are fewer than ten).
type Bands struct {
	Years         int   `json:"years"`
	UnservedHours Range `json:"unserved_hours"`
	Unserved      Range `json:"unserved_wh"`
	SunCaught     Range `json:"sun_caught_wh"`
	SoCMin        Range `json:"soc_min"`
	FrostLockedH  Range `json:"frost_locked_hours"`
	LostFrost     Range `json:"lost_frost_wh"`
	Heater        Range `json:"heater_wh"`
}

// Range is a band of one figure.
type Range struct {
	Low    float64 `json:"low"`
	Middle float64 `json:"middle"`
	High   float64 `json:"high"`
}

// Weather says what the weather rests on.
type Weather struct {
	Source  string   `json:"source"` // "synthetic hours from the built-in climate table", "hourly file NAME"
	Years   int      `json:"years"`
	Seed    uint64   `json:"seed"`
	StepS   float64  `json:"step_s"`
	Sources []string `json:"sources"` // keys
	Notes   []string `json:"notes"`
}

// Limit is a change tried by running the same years again. The changes are means
// over those years.
type Limit struct {
	Change        string  `json:"change"` // "100 W more panel"
	Years         int     `json:"years"`
	UnservedHours float64 `json:"unserved_hours_change"`
	Unserved      float64 `json:"unserved_wh_change"`
	SunCaught     float64 `json:"sun_caught_wh_change"`
	FrostLockedH  float64 `json:"frost_locked_hours_change"`
	LostFrost     float64 `json:"lost_frost_wh_change"`
	Heater        float64 `json:"heater_wh_change"`
	SoCMin        float64 `json:"soc_min_change"` // of the lowest of those years
	Why           string  `json:"why"`
}

// Span is a stretch of the year in steps.
type Span struct {
	From   string    `json:"from"`
	StepS  float64   `json:"step_s"`
	SoC    []float64 `json:"soc"`
	TempC  []float64 `json:"bank_temp_c"`
	AirC   []float64 `json:"air_c"`
	SunW   []float64 `json:"sun_w"`   // caught
	OfferW []float64 `json:"offer_w"` // offered
	LoadW  []float64 `json:"load_w"`  // served
	BankV  []float64 `json:"bank_v"`
}
