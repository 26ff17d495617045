package conductor

import (
	"encoding/csv"
	"errors"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/quantity"
)

func size(t testing.TB, text string) quantity.Size {
	t.Helper()
	s, err := quantity.ParseSize(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// table reads a reference table; rows are keyed by column name.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(shared.Path(t, "reference/"+name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, cell := range r {
			row[records[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

func float(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestAreasAgainstTheTable(t *testing.T) {
	for _, r := range table(t, "wire-awg.csv") {
		mm2, err := Area(size(t, r["awg"]+" AWG"))
		if err != nil {
			t.Fatal(err)
		}
		near.Relative(t, r["awg"]+" AWG mm²", mm2, float(t, r["area_mm2"]), 1e-3)
		// The code prints rounded areas, 105 600 cmil for 1/0.
		near.Relative(t, r["awg"]+" AWG cmil", mm2/Mm2PerCmil, float(t, r["area_cmil_nominal_nec"]), 3e-3)
		if r["sae_gauge_min_cmil"] == "" {
			continue
		}
		sae, err := Area(size(t, r["awg"]+" SAE"))
		if err != nil {
			t.Fatal(err)
		}
		near.Relative(t, r["awg"]+" SAE cmil", sae/Mm2PerCmil, float(t, r["sae_gauge_min_cmil"]), 1e-9)
	}
}

// The target is 0.5 % of the published tables.
func TestResistanceAgainstTheTables(t *testing.T) {
	for _, r := range table(t, "wire-awg.csv") {
		got, err := Resistance(size(t, r["awg"]+" AWG"), 75)
		if err != nil {
			t.Fatal(err)
		}
		near.Relative(t, r["awg"]+" AWG", got*kft, float(t, r["nec_t8_stranded_uncoated_75C_ohm_per_kft"]), 1e-9)
	}
	for _, r := range table(t, "wire-iec60228.csv") {
		got, err := Resistance(size(t, r["mm2"]+" mm2"), 20)
		if err != nil {
			t.Fatal(err)
		}
		near.Relative(t, r["mm2"]+" mm2", got*1000, float(t, r["class5_plain_max_r20_ohm_per_km"]), 1e-9)
	}
}

// The formula for sizes without a row agrees with the rows there are; the table
// prints three digits.
func TestFormulaAgainstTheTable(t *testing.T) {
	for _, g := range gauges {
		byFormula := lay * Resistivity / awgArea(g.number) * warming(75) * kft
		near.Relative(t, quantity.Size{Gauge: quantity.AWG, Number: g.number}.String(), byFormula, g.nec, 0.01)
	}
	// Solid copper: 4/0 has 0.1608 Ω/km at 20 °C, 12 AWG 1.93 Ω/kft at 75 °C (table 8).
	near.Relative(t, "4/0 solid", Resistivity/awgArea(-3)*1000, 0.1608, 1e-3)
	near.Relative(t, "12 AWG solid", Resistivity/awgArea(12)*warming(75)*kft, 1.93, 3e-3)
}

// IEC 60228 prints factors from 5, 40 and 75 °C to 20 °C with a rounder
// coefficient; they agree to 0.3 %.
func TestWarmingAgainstPrintedFactors(t *testing.T) {
	for tempC, factor := range map[float64]float64{5: 1.064, 40: 0.926, 75: 0.820} {
		near.Relative(t, "factor", 1/warming(tempC), factor, 3e-3)
	}
}

func TestResistanceBetweenRows(t *testing.T) {
	for _, tt := range []struct{ text, thinner, thicker string }{
		{"5 AWG", "6 AWG", "4 AWG"}, {"7 AWG", "8 AWG", "6 AWG"}, {"20 mm2", "16 mm2", "25 mm2"}, {"22 AWG", "24 AWG", "20 AWG"},
		{"12 SAE", "14 AWG", "12 AWG"},
	} {
		got, err := Resistance(size(t, tt.text), 20)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		thicker, _ := Resistance(size(t, tt.thicker), 20)
		thinner, _ := Resistance(size(t, tt.thinner), 20)
		if !(got < thinner && got > thicker) {
			t.Errorf("%s: %g Ω/m is not between %g and %g", tt.text, got, thicker, thinner)
		}
	}
}

func TestResistanceRefuses(t *testing.T) {
	for _, s := range []quantity.Size{{}, size(t, "0.4 mm2"), size(t, "150 mm2"), size(t, "20 SAE"), {Gauge: quantity.AWG, Number: -4}, {Gauge: quantity.AWG, Number: 41}} {
		if r, err := Resistance(s, 20); !errors.Is(err, figure.ErrRange) {
			t.Errorf("%v: got %g, %v", s, r, err)
		}
	}
	for _, tempC := range []float64{-61, 251} {
		if _, err := Resistance(size(t, "50 mm2"), tempC); !errors.Is(err, figure.ErrRange) {
			t.Errorf("%g °C: got %v", tempC, err)
		}
	}
}

// A thicker metric conductor never resists more, warmer copper always does.
func TestResistanceFallsWithAreaAndRisesWithHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.5, 119).Draw(t, "mm2")
		b := rapid.Float64Range(a, 120).Draw(t, "thicker")
		tempC := rapid.Float64Range(-60, 249).Draw(t, "temperature")
		thin, err1 := Resistance(quantity.Size{Gauge: quantity.MM2, Number: a}, tempC)
		thick, err2 := Resistance(quantity.Size{Gauge: quantity.MM2, Number: b}, tempC)
		warm, err3 := Resistance(quantity.Size{Gauge: quantity.MM2, Number: a}, tempC+1)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		if thick > thin || warm <= thin {
			t.Fatalf("%g mm²: %g, %g mm²: %g, a kelvin warmer: %g", a, thin, b, thick, warm)
		}
	})
}
