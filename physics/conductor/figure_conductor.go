package conductor

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Conductor answers how big a conductor size is, how much it resists and how
// much it carries.
var Conductor = &figure.Figure{
	Name:    "conductor",
	Answers: "What area, resistance and ampacity has this copper conductor?",
	Inputs: []figure.Input{
		ofSize,
		copperAt,
		{Name: "insulation", Dim: quantity.Celsius, Doc: "temperature rating of the insulation", Default: "105 °C"},
		{Name: "place", Doc: "open (in air of 30 °C), enclosed (in a conduit, loom or wall) or engine (an engine space, 50 °C)", Default: Open, Example: Engine},
		{Name: "bundle", Dim: quantity.Plain, Doc: "current-carrying conductors lying together", Default: "1"},
		{Name: "ambient", Dim: quantity.Celsius, Doc: "air around it; an engine space counts as 50 °C at least", Default: "30 °C"},
		{Name: "lugs", Dim: quantity.Celsius, Doc: "temperature rating of lugs and terminals; 200 °C does not limit", Default: "200 °C"},
		{Name: "voltage", Dim: quantity.Volts, Doc: "of the circuit: from 50 V on the lower bundle factors of 33 CFR hold", Default: "12 V"},
	},
	Outputs: []figure.Output{
		{Key: "area_mm2", Dim: quantity.SquareMillimetres, Doc: "area; of mm² sizes nominal, of SAE the least allowed"},
		{Key: "resistance_ohm_per_m", Dim: quantity.OhmsPerMetre, Doc: "of one stranded conductor at the temperature"},
		{Key: "ampacity_a", Dim: quantity.Amperes, Doc: "current it carries for long"},
		{Key: "ampacity_basis", Doc: "what the ampacity rests on"},
	},
	Equation: "AWG: d = 0.127 mm · 92^((36 - n)/39), area = π/4 · d²; R = R_table · (1 + 0.00393 · (T - 20 °C)) / (1 + 0.00393 · (T_table - 20 °C)); " +
		"sizes not in the table: R20 = 1.02 · 0.017241 Ω·mm²/m / area; ampacity = table · place factor · bundle factor · ambient factor, at most the table in the column of the lugs, " +
		"between rows log ampacity straight over log area",
	Source: source.ConductorTables,
	Range: "copper, dc, -60 to 250 °C; ampacity 18 to 4/0 AWG, 16 to 4/0 SAE, 0.75 to 120 mm², insulation 60 to 200 °C (between columns the lower one); " +
		"enclosed 75 and 90 °C, the higher insulation counting as 90 °C; mm² sizes take the lower of a remembered ISO 10133 table and the interpolated 33 CFR table; tinned conductors resist up to 8 % more",
	Compute: computeConductor,
	Checks:  append(resistanceChecks, ampacityChecks...),
}

func computeConductor(a figure.Args) (figure.Results, error) {
	size, err := quantity.ParseSize(a.Text("size"))
	if err != nil {
		return nil, err
	}
	mm2, err := Area(size)
	if err != nil {
		return nil, err
	}
	perM, err := Resistance(size, a.Num("temperature"))
	if err != nil {
		return nil, err
	}
	bundle := a.Num("bundle")
	if bundle != math.Trunc(bundle) || !(bundle >= 1 && bundle <= 1000) {
		return nil, fmt.Errorf("bundle %g: expected a whole number from 1 to 1000: %w", bundle, figure.ErrRange)
	}
	r, err := RateIn(size, Surroundings{InsulationC: a.Num("insulation"), Place: a.Text("place"), Bundle: int(bundle),
		AmbientC: a.Num("ambient"), LugsC: a.Num("lugs"), Volts: a.Num("voltage")})
	if err != nil {
		return nil, err
	}
	return figure.Results{"area_mm2": mm2, "resistance_ohm_per_m": perM, "ampacity_a": r.Amperes, "ampacity_basis": r.Basis}, nil
}

var resistanceChecks = []figure.Check{
	number(source.ASTMB258, "2 AWG", "area_mm2", 33.631, 0.0034, "size=2 AWG"),
	number(source.ASTMB258, "4/0 AWG, 0.4600 in", "area_mm2", 107.219, 0.011, "size=4/0 AWG"),
	number(source.SAEAreas, "12 SAE, 5833 cmil", "area_mm2", 5833*Mm2PerCmil, 1e-6, "size=12 SAE"),
	number(source.NECTable8, "10 AWG, 1.24 Ω/kft", "resistance_ohm_per_m", 1.24/kft, 0.0006/kft, "size=10 AWG", "temperature=75 °C"),
	number(source.NECTable8, "12 AWG, 1.98 Ω/kft", "resistance_ohm_per_m", 1.98/kft, 0.0009/kft, "size=12 AWG", "temperature=75 °C"),
	number(source.NECTable8, "2/0 AWG, 0.0967 Ω/kft", "resistance_ohm_per_m", 0.0967/kft, 0.00004/kft, "size=2/0 AWG", "temperature=75 °C"),
	number(source.IEC60228, "50 mm², class 5", "resistance_ohm_per_m", 0.386e-3, 1e-9, "size=50 mm2"),
	number(source.IEC60228, "16 mm², class 5", "resistance_ohm_per_m", 1.21e-3, 1e-9, "size=16 mm2"),
	number(source.CopperSlope, "50 mm² class 5 at 75 °C", "resistance_ohm_per_m", 0.4694e-3, 0.0024e-3, "size=50 mm2", "temperature=75 °C"),
}

var ampacityChecks = []figure.Check{
	number(source.CFR183425, "table 5, 2/0, 105 °C, outside engine spaces", "ampacity_a", 330, 0, "size=2/0 AWG"),
	number(source.CFR183425, "table 5, 10 AWG, 60 °C", "ampacity_a", 40, 0, "size=10 AWG", "insulation=60 °C"),
	number(source.CFR183425, "6 AWG, 105 °C, engine space: printed 102", "ampacity_a", 102, 1e-9, "size=6 AWG", "place=engine"),
	number(source.CFR183425, "4/0, 105 °C, engine space: printed 378", "ampacity_a", 378, 0.5, "size=4/0 AWG", "place=engine"),
	number(source.NECAmbient, "published: four 10 AWG of 90 °C in air of 120 °F, 40 A × 0.82, before the factor for four", "ampacity_a", 32.8, 0.1,
		"size=10 AWG", "insulation=90 °C", "place=enclosed", "ambient=120 °F"),
	number(source.NECAmbient, "the same with the 0.80 for four", "ampacity_a", 26.24, 0.1,
		"size=10 AWG", "insulation=90 °C", "place=enclosed", "ambient=120 °F", "bundle=4"),
	number(source.NEC31016, "2/0, 75 °C column, enclosed", "ampacity_a", 175, 0, "size=2/0 AWG", "insulation=75 °C", "place=enclosed"),
	number(source.CFR183425, "2/0 of 105 °C on lugs rated 75 °C", "ampacity_a", 265, 0, "size=2/0 AWG", "lugs=75 °C"),
	number(source.CFR183425, "three conductors at 50 V and more, 0.70 of 60 A", "ampacity_a", 42, 1e-9, "size=10 AWG", "bundle=3", "voltage=50 V"),
	number(source.NECBundle, "four conductors, 0.80 of 60 A", "ampacity_a", 48, 1e-9, "size=10 AWG", "bundle=4"),
	number(source.ISO10133, "35 mm², 105 °C", "ampacity_a", 210, 0, "size=35 mm2"),
	number(source.ISO10133, "50 mm², 105 °C; 33 CFR interpolated gives 272.8", "ampacity_a", 270, 0, "size=50 mm2"),
}
