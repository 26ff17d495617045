package conductor

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	"ampstead/internal/near"
	"ampstead/quantity"
)

func TestEnclosedAgainstTheTable(t *testing.T) {
	for _, r := range table(t, "wire-ampacity-nec-310-16.csv") {
		for column, insulation := range map[string]float64{"cu_75C_A": 75, "cu_90C_A": 90} {
			got, err := Rate(size(t, r["awg"]+" AWG"), insulation, Enclosed, 1)
			if err != nil {
				t.Fatal(err)
			}
			if r[column] == "" { // carried down from 90 °C
				if ninety := float(t, r["cu_90C_A"]); !got.Weak || got.Amperes > ninety*0.8661 {
					t.Errorf("%s AWG at 75 °C: %+v", r["awg"], got)
				}
				continue
			}
			near.Equal(t, r["awg"]+" AWG "+column, got.Amperes, float(t, r[column]), 0)
		}
	}
}

func TestAmbientFactorsAgainstTheTable(t *testing.T) {
	for _, r := range table(t, "wire-ambient-factors-nec.csv") {
		low, high, _ := strings.Cut(r["ambient_C_range"], "..")
		for column, insulation := range map[string]float64{"ins_60C": 60, "ins_75C": 75, "ins_90C": 90} {
			for _, at := range []string{low, high} {
				got, err := AmbientFactor(insulation, float(t, at))
				if r[column] == "" {
					if !errors.Is(err, figure.ErrRange) {
						t.Errorf("%s at %s °C: got %g, %v", column, at, got, err)
					}
					continue
				}
				near.Equal(t, column+" at "+at, got, float(t, r[column]), 0)
			}
		}
	}
}

func TestBundlesFromFiftyVoltsAgainstTheTable(t *testing.T) {
	alone, err := Ampacity(size(t, "10 AWG"), 105, Open, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range table(t, "wire-bundling-factors.csv") {
		if !strings.HasPrefix(r["source"], "33 CFR") {
			continue
		}
		first := strings.TrimSuffix(strings.Split(r["conductors"], "-")[0], "+")
		got, err := RateIn(size(t, "10 AWG"), Surroundings{InsulationC: 105, Bundle: int(float(t, first)), AmbientC: 30, Volts: 50})
		if err != nil {
			t.Fatal(err)
		}
		near.Equal(t, first, got.Amperes, alone*float(t, r["factor"]), 1e-9)
	}
}

func TestSurroundings(t *testing.T) {
	twoOught := size(t, "2/0 AWG")
	for _, tt := range []struct {
		name string
		in   Surroundings
		want float64
	}{
		{"as the table", Surroundings{InsulationC: 105, AmbientC: 30}, 330},
		{"an engine space is 50 °C already", Surroundings{InsulationC: 105, Place: Engine, AmbientC: 45}, 330 * 0.85},
		{"a hotter one", Surroundings{InsulationC: 105, Place: Engine, AmbientC: 60}, 330 * 0.85 * AmbientLaw(105, 60) / AmbientLaw(105, 50)},
		{"lugs of 75 °C", Surroundings{InsulationC: 105, AmbientC: 30, LugsC: 75}, 265},
		{"lugs that do not limit", Surroundings{InsulationC: 105, Place: Engine, AmbientC: 50, Bundle: 4, LugsC: 75}, 330 * 0.85 * 0.8},
		{"three at 48 V", Surroundings{InsulationC: 105, AmbientC: 30, Bundle: 3, Volts: 48}, 330},
		{"three at 50 V", Surroundings{InsulationC: 105, AmbientC: 30, Bundle: 3, Volts: 50}, 231},
	} {
		got, err := RateIn(twoOught, tt.in)
		if err != nil {
			t.Fatal(err)
		}
		near.Equal(t, tt.name, got.Amperes, tt.want, 1e-9)
	}
	for _, in := range []Surroundings{{InsulationC: 60, AmbientC: 56}, {InsulationC: 105, AmbientC: 101}, {InsulationC: 60, Place: Enclosed, AmbientC: 30}, {InsulationC: 105, AmbientC: -90}} {
		if got, err := RateIn(twoOught, in); !errors.Is(err, figure.ErrRange) {
			t.Errorf("%+v: got %+v, %v", in, got, err)
		}
	}
}

// Whatever the surroundings, more copper never carries less, hotter air never more.
func TestSurroundingsAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := Sizes(rapid.SampledFrom([]quantity.Gauge{quantity.AWG, quantity.SAE, quantity.MM2}).Draw(t, "gauge"))
		k := rapid.IntRange(2, len(list)-1).Draw(t, "size")
		in := Surroundings{InsulationC: rapid.SampledFrom([]float64{75, 90, 105, 125}).Draw(t, "insulation"),
			Place: rapid.SampledFrom([]string{Open, Enclosed, Engine}).Draw(t, "place"), Bundle: rapid.IntRange(1, 45).Draw(t, "bundle"),
			AmbientC: rapid.Float64Range(-20, 65).Draw(t, "ambient"), LugsC: rapid.SampledFrom([]float64{0, 75, 90}).Draw(t, "lugs"),
			Volts: rapid.SampledFrom([]float64{12, 60}).Draw(t, "volts")}
		thin, err1 := RateIn(list[k-1], in)
		thick, err2 := RateIn(list[k], in)
		in.AmbientC += 5
		hot, err3 := RateIn(list[k], in)
		if errors.Join(err1, err2, err3) != nil {
			return // outside a table
		}
		if thick.Amperes < thin.Amperes*(1-1e-9) || hot.Amperes > thick.Amperes*(1+1e-9) {
			t.Fatalf("%v %g A, %v %g A, 5 K hotter %g A", list[k-1], thin.Amperes, list[k], thick.Amperes, hot.Amperes)
		}
	})
}

func TestNewFiguresRefuse(t *testing.T) {
	for _, tt := range []struct {
		f        *figure.Figure
		in, want string
	}{
		{Ambient, "ambient=104 °C", "too hot"},
		{Heat, "current=1 A|ampacity=0 A", "ampacity must be more"},
		{Heat, "current=1 A|ampacity=10 A|ambient=105 °C", "below insulation"},
		{DropISO, "current=1 A|length=1 m|area=0 mm2", "area must be more"},
		{ThermalWithstand, "current=1 kA|time=6 s", "more than 5 s"},
		{ThermalWithstand, "current=1 kA|time=1 s|insulation=paper", "expected pvc-70"},
		{ShortTime, "current=0 A|area=10 mm2", "current must be more"},
		{BusBar, "current=5000 A", "two side by side"},
		{BusBar, "current=100 A|rise=20 K", "begins at 30 K"},
	} {
		figuretest.Refuse(t, tt.f, tt.in, tt.want)
	}
}
