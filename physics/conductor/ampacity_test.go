package conductor

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/quantity"
)

func TestAmpacityAgainstTheTable(t *testing.T) {
	for _, r := range table(t, "wire-ampacity-cfr-183-425.csv") {
		for _, c := range cfrColumns {
			got, err := Ampacity(size(t, r["awg"]+" AWG"), c, Open, 1)
			if err != nil {
				t.Fatal(err)
			}
			near.Equal(t, fmt.Sprint(r["awg"], " AWG ", c), got, float(t, r[fmt.Sprintf("ins_%gC_A", c)]), 0)
		}
	}
}

// Metric sizes take the lower of two tables and say so.
func TestMetricAmpacityAgainstTheTable(t *testing.T) {
	for _, r := range table(t, "wire-ampacity-iso-mm2.csv") {
		got, err := Rate(size(t, r["mm2"]+" mm2"), 105, "", 0)
		if err != nil {
			t.Fatal(err)
		}
		want := float(t, r["iso_105C_A_from_memory_unconfirmed"])
		if text := r["cfr_105C_loglog_interpolated_A"]; text != "" {
			interpolated, ok := between(cfrTables[4], float(t, r["mm2"]))
			if !ok {
				t.Fatalf("%s mm² is outside the table", r["mm2"])
			}
			near.Relative(t, "interpolated at "+r["mm2"], interpolated, float(t, text), 5e-3)
			want = math.Min(want, interpolated)
		} else {
			want = math.Min(want, 445) // of the largest conductor of the other table
		}
		near.Relative(t, r["mm2"]+" mm2", got.Amperes, want, 1e-9)
		if fromMemory := strings.HasPrefix(got.Basis, "ISO"); got.Weak != fromMemory || !strings.Contains(got.Basis, "from memory") {
			t.Errorf("%s mm²: weak %v on %q", r["mm2"], got.Weak, got.Basis)
		}
	}
}

// The advice keeps clear of the printed column that
// contradicts the others.
func TestMetricNeverAbovePrintedCaps(t *testing.T) {
	for mm2, cap := range map[string]float64{"10": 120, "16": 170, "35": 240, "50": 325, "95": 430, "120": 520} {
		got, err := Ampacity(size(t, mm2+" mm2"), 105, Open, 1)
		if err != nil || got >= cap {
			t.Errorf("%s mm²: %g A, %v; the printed cap is %g", mm2, got, err, cap)
		}
	}
}

// The factors follow the heat balance I₂/I₁ = √((Tc-50)/(Tc-30)) to two digits.
func TestEngineFactorsAgainstHeatBalance(t *testing.T) {
	for i, c := range cfrColumns {
		near.Equal(t, fmt.Sprint(c, " °C"), engineFactors[i], math.Sqrt((c-50)/(c-30)), 0.007)
	}
}

func TestCorrections(t *testing.T) {
	tests := []struct {
		text       string
		insulation float64
		place      string
		bundle     int
		want       float64
	}{
		{"2/0 AWG", 105, Open, 1, 330}, {"6 AWG", 105, Engine, 1, 102}, {"4/0 AWG", 105, Engine, 1, 378.25},
		{"10 AWG", 90, Open, 4, 44}, {"10 AWG", 105, Open, 3, 60}, {"10 AWG", 105, Open, 6, 48}, {"10 AWG", 105, Open, 9, 42},
		{"10 AWG", 105, Open, 20, 30}, {"10 AWG", 105, Open, 30, 27}, {"10 AWG", 105, Open, 40, 24}, {"10 AWG", 105, Open, 41, 21},
		{"10 AWG", 105, Engine, 4, 60 * 0.85 * 0.8}, {"10 AWG", 100, Open, 1, 55}, {"10 AWG", 104.9999999999, Open, 1, 60},
		{"10 AWG", 200, Engine, 1, 70 * 0.94}, {"120 mm2", 60, Open, 1, 300}, {"0.8 mm2", 200, Open, 1, 25},
	}
	for _, tt := range tests {
		got, err := Ampacity(size(t, tt.text), tt.insulation, tt.place, tt.bundle)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		near.Equal(t, fmt.Sprint(tt), got, tt.want, 1e-9)
	}
	r, err := Rate(size(t, "10 AWG"), 80, Engine, 4)
	want := "33 CFR 183.425 table 5, 80 °C column; × 0.78 for an engine space, from memory, unconfirmed; × 0.8 for 4 conductors lying together"
	if err != nil || r.Basis != want || !r.Weak {
		t.Errorf("got %+v, %v; want the basis %q", r, err, want)
	}
}

// SAE gauges are thinner than AWG of the same number and carry less.
func TestSAECarriesLess(t *testing.T) {
	for _, g := range gauges {
		sae, err := Ampacity(quantity.Size{Gauge: quantity.SAE, Number: g.number}, 105, Open, 1)
		if g.number == 18 || g.number == 3 {
			if !errors.Is(err, figure.ErrRange) {
				t.Errorf("%g SAE: got %g, %v; it is outside the table", g.number, sae, err)
			}
			continue
		}
		if err != nil || sae >= g.amperes[4] {
			t.Errorf("%g SAE carries %g A, %v; AWG %g A", g.number, sae, err, g.amperes[4])
		}
	}
}

func TestAmpacityRefuses(t *testing.T) {
	for _, text := range []string{"20 AWG", "18 SAE", "0.5 mm2", "121 mm2"} {
		if a, err := Ampacity(size(t, text), 105, Open, 1); !errors.Is(err, figure.ErrRange) {
			t.Errorf("%s: got %g, %v", text, a, err)
		}
	}
	ok := size(t, "10 AWG")
	for _, c := range []float64{59, 201, math.NaN()} {
		if _, err := Ampacity(ok, c, Open, 1); !errors.Is(err, figure.ErrRange) {
			t.Errorf("insulation %g: got %v", c, err)
		}
	}
	if _, err := Ampacity(ok, 105, "roof", 1); err == nil {
		t.Error("place roof was taken")
	}
	if _, err := Ampacity(ok, 105, Open, -1); !errors.Is(err, figure.ErrRange) {
		t.Error("a negative bundle was taken")
	}
	if _, err := Ampacity(quantity.Size{}, 105, Open, 1); !errors.Is(err, figure.ErrRange) {
		t.Error("no size was taken")
	}
}

// Hotter places, more neighbours and lower insulation never raise the ampacity,
// and a thicker metric conductor never carries less.
func TestAmpacityIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.75, 120).Draw(t, "mm2")
		b := rapid.Float64Range(a, 120).Draw(t, "thicker")
		insulation := rapid.Float64Range(60, 200).Draw(t, "insulation")
		better := rapid.Float64Range(insulation, 200).Draw(t, "better insulation")
		bundle := rapid.IntRange(1, 60).Draw(t, "bundle")
		must := func(mm2, insulationC float64, place string, n int) float64 {
			v, err := Ampacity(quantity.Size{Gauge: quantity.MM2, Number: mm2}, insulationC, place, n)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		base := must(a, insulation, Open, bundle)
		const rounding = 1 + 1e-9
		for name, v := range map[string]float64{"thicker": must(b, insulation, Open, bundle), "better": must(a, better, Open, bundle)} {
			if v*rounding < base {
				t.Fatalf("%s: %g A after %g A", name, v, base)
			}
		}
		for name, v := range map[string]float64{"engine": must(a, insulation, Engine, bundle), "more": must(a, insulation, Open, bundle+1)} {
			if v > base*rounding {
				t.Fatalf("%s: %g A after %g A", name, v, base)
			}
		}
	})
}
