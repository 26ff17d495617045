package cell

import (
	"fmt"

	"ampstead/figure"
	"ampstead/source"
)

// restTable is one published column: rest voltages at tenths of charge and more.
type restTable struct {
	cell      string
	source    source.Source
	note      string
	tolerance float64 // V
	soc, volt []float64
}

var (
	evaluatedSoC = []float64{0, 0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 0.95, 1}
	measuredSoC  = []float64{0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 0.95}
	acidSoC      = []float64{0, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1}
)

const (
	evaluated = "evaluated from the half-cell equations"
	measured  = "measured curve"
	knot      = "knot of the published ten-piece reduction"
)

// restTables are the published values that the rest voltage must reproduce:
// computed sets and measured curves within 2 mV, knots of the coarse published
// reduction within 10 mV, the pouch within 5 mV.
func restTables() []restTable {
	return []restTable{
		{"nca", source.Kim2011, evaluated, 0.002, evaluatedSoC,
			[]float64{2.7000, 3.1939, 3.2471, 3.3721, 3.4918, 3.5978, 3.6846, 3.7678, 3.8742, 3.9803, 4.0803, 4.1354, 4.2000}},
		{"nmc811", source.Chen2020, evaluated, 0.002, evaluatedSoC,
			[]float64{2.5000, 3.1094, 3.2959, 3.4852, 3.5814, 3.6670, 3.7509, 3.8406, 3.9479, 4.0421, 4.0967, 4.1236, 4.2000}},
		{"nmc532", source.Mohtat2020, evaluated, 0.002, evaluatedSoC,
			[]float64{2.8000, 3.4620, 3.5107, 3.5847, 3.6389, 3.6710, 3.7155, 3.7968, 3.8797, 3.9705, 4.0767, 4.1360, 4.2000}},
		{"nco-pouch", source.Ecker2015, evaluated, 0.002, evaluatedSoC,
			[]float64{2.5000, 3.2938, 3.4586, 3.5870, 3.7094, 3.7700, 3.7873, 3.8155, 3.8823, 3.9868, 4.0789, 4.1353, 4.2000}},
		{"lfp-prada", source.Prada2013, evaluated, 0.002, evaluatedSoC,
			[]float64{2.0000, 2.7853, 2.9781, 3.1685, 3.2058, 3.2525, 3.2660, 3.2688, 3.2740, 3.3097, 3.3142, 3.3164, 3.6000}},
		{"lfp", source.Sunil2025, measured, 0.002, measuredSoC,
			[]float64{3.0721, 3.2029, 3.2413, 3.2778, 3.2948, 3.2991, 3.3032, 3.3163, 3.3371, 3.3411, 3.3429}},
		{"nmc811-21700", source.Sunil2025, measured, 0.002, measuredSoC,
			[]float64{3.1617, 3.3041, 3.4754, 3.5763, 3.6443, 3.7167, 3.8174, 3.9201, 4.0184, 4.0919, 4.1158}},
		{"nickel-rich-21700-a", source.Sunil2025, measured, 0.002, measuredSoC,
			[]float64{3.1693, 3.3344, 3.4746, 3.5811, 3.6560, 3.7418, 3.8439, 3.9263, 4.0340, 4.0798, 4.1011}},
		{"nickel-rich-21700-b", source.Sunil2025, measured, 0.002, measuredSoC,
			[]float64{3.1916, 3.3547, 3.4820, 3.5896, 3.6548, 3.7377, 3.8425, 3.9234, 4.0307, 4.0854, 4.1083}},
		{"nickel-rich-18650", source.Sunil2025, measured, 0.002, measuredSoC,
			[]float64{3.1943, 3.3500, 3.4840, 3.5849, 3.6538, 3.7355, 3.8374, 3.9198, 4.0186, 4.0827, 4.1069}},
		{"lfp", source.Sunil2025, knot, 0.010, []float64{0.0885, 0.2972, 0.9833}, []float64{3.1942, 3.2772, 3.3511}},
		{"nmc811-21700", source.Sunil2025, knot, 0.010, []float64{0.1809, 0.4824, 0.8492}, []float64{3.4544, 3.7012, 4.0666}},
		{"lmo-blend-pouch", source.PouchTest, "rest of 1 h", 0.005,
			[]float64{1, 0.896, 0.791, 0.687, 0.583, 0.478, 0.374, 0.270, 0.165, 0.061},
			[]float64{4.182, 4.086, 4.048, 3.984, 3.949, 3.909, 3.869, 3.802, 3.723, 3.531}},
		{"lmo-blend-pouch", source.PouchDerived, "between rests", 0.005, []float64{0.2, 0.5, 0.8}, []float64{3.742, 3.919, 4.052}},
		{"lead-acid-flooded", source.AcidGravity, "gravity table, a sixth of six cells", 0.001, acidSoC,
			sixth(11.358, 11.508, 11.658, 11.814, 11.958, 12.102, 12.240, 12.372, 12.498, 12.618, 12.732)},
	}
}

// sixth turns voltages of a six-cell battery into those of one cell.
func sixth(volts ...float64) []float64 {
	for k := range volts {
		volts[k] /= 6
	}
	return volts
}

func restChecks() []figure.Check {
	var checks []figure.Check
	for _, t := range restTables() {
		for k, soc := range t.soc {
			note := fmt.Sprintf("%s, %s at %g %%", t.note, t.cell, soc*100)
			checks = append(checks, check(t.source, note, "voltage_v", t.volt[k], t.tolerance, "cell="+t.cell, fmt.Sprintf("soc=%g", soc)))
		}
	}
	return checks
}
