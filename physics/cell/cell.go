package cell

import "ampstead/source"

// Family is the chemistry class a cell's rules follow.
type Family string

// The chemistry families.
const (
	NCA      Family = "nickel-cobalt-aluminium"
	NMC      Family = "nickel-manganese-cobalt"
	LMO      Family = "manganese blend"
	LFP      Family = "iron-phosphate"
	LeadAcid Family = "lead-acid"
)

// Known is a number with where it comes from.
type Known struct {
	Value  float64
	Source source.Source
	Note   string // conflict, condition or doubt, if any
}

// RatePoint is one knot of a current limit against cell temperature.
type RatePoint struct {
	TempC float64
	Rate  float64 // 1/h, current over capacity
}

// Rates is a current limit over temperature: knots strictly rising in TempC,
// straight lines between them, zero outside.
type Rates struct {
	Points []RatePoint
	Source source.Source
	Note   string
}

// Cell is what the library knows of one kind of cell. Voltages are per cell at
// 25 °C; lead-acid counts a 2 V cell.
type Cell struct {
	Name   string // "nmc532"
	Title  string // plain words, "nickel-manganese-cobalt 532, prismatic or pouch"
	Family Family

	Curve       Curve         // rest voltage
	CurveSource source.Source // where it comes from
	CurveNote   string        // how it was measured or computed
	RestDoubtV  Known         // how far a true rest voltage may lie from the curve: hysteresis, cell to cell

	NominalV      Known
	MaxV          Known // no cell is ever charged above: the upper harm line
	MinV          Known // no cell is ever discharged below: the lower harm line
	DailyHighV    Known // preferred top of daily use, for long life
	DailyLowV     Known // preferred bottom of daily use
	StorageSoC    Known // fraction to leave it at
	ChargeRates   Rates
	DischargeRate Rates
	ChargeMinC    Known // no charge below
	ChargeMaxC    Known // no charge above
	AlarmC        Known
	HarmC         Known // disconnect at the latest

	ResistanceOhmAh Known // 10 s resistance times rated Ah at 25 °C, mid charge, Ω·Ah
	ColdEaJ         Known // activation energy below 25 °C, J/mol
	WarmEaJ         Known // above 25 °C
	SlowShare       Known // share of the 10 s resistance that the slow branch (RC) has built up by then; see Split
	SlowTauS        Known // its time constant, s
	SpecificHeat    Known // J/kg/K
	FlatFrom        float64
	FlatTo          float64     // state of charge range where rest voltage tells nothing, 0 when none
	Acid            *AcidCharge // charge voltages of lead-acid, nil otherwise
}

// AcidCharge holds the usual charge voltages of a lead-acid cell, V per cell at 25 °C.
type AcidCharge struct {
	AbsorptionV, FloatV Known
	EqualiseV           Known // Value 0 when none
	CompensationVPerK   Known // per cell, negative
}
