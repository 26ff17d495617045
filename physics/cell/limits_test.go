package cell

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/source"

	"pgregory.net/rapid"
)

func TestLibraryHasTheNamesOthersRelyOn(t *testing.T) {
	for _, name := range []string{"nca", "nmc532", "nmc811", "nickel-rich-18650", "lmo-blend-pouch", "lfp", "lead-acid-flooded", "lead-acid-agm"} {
		if c := find(t, name); c.Name != name || c.Title == "" || c.Curve.Empty() {
			t.Errorf("%s: %+v", name, c)
		}
	}
	_, err := Lookup("nmc999")
	if err == nil || !strings.Contains(err.Error(), "nmc532") || !strings.Contains(err.Error(), "lead-acid-agm") {
		t.Errorf("unknown name: %v", err)
	}
}

func TestLookupGivesACopy(t *testing.T) {
	c := find(t, "lead-acid-agm")
	c.MaxV.Value, c.ChargeRates.Points[1].Rate, c.Acid.FloatV.Value = 9, 9, 9
	if d := find(t, "lead-acid-agm"); d.MaxV.Value == 9 || d.ChargeRates.Points[1].Rate == 9 || d.Acid.FloatV.Value == 9 {
		t.Error("a caller changed the library")
	}
}

// knownOf visits every figure a cell holds, by name.
func knownOf(c *Cell, visit func(name string, k Known)) {
	eachKnown(reflect.ValueOf(*c), visit)
	if c.Acid != nil {
		eachKnown(reflect.ValueOf(*c.Acid), visit)
	}
}

func eachKnown(v reflect.Value, visit func(string, Known)) {
	for k := range v.NumField() {
		if known, ok := v.Field(k).Interface().(Known); ok {
			visit(v.Type().Field(k).Name, known)
		}
	}
}

func TestEveryFigureOfEveryCellHasASource(t *testing.T) {
	for _, name := range Names() {
		c := find(t, name)
		listed := func(what string, s source.Source) {
			if s.Key == "" || !slices.Contains(source.All(), s) {
				t.Errorf("%s %s rests on %q, which is not in the bibliography", name, what, s.Key)
			}
		}
		knownOf(c, func(field string, k Known) {
			listed(field, k.Source)
			if k.Value == 0 && field != "ChargeMinC" && field != "EqualiseV" {
				t.Errorf("%s has no %s", name, field)
			}
		})
		listed("curve", c.CurveSource)
		listed("charge current", c.ChargeRates.Source)
		listed("discharge current", c.DischargeRate.Source)
	}
}

func TestSourcesHaveUniqueKeysAndAText(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range source.All() {
		if s.Key == "" || s.Text == "" || s.Standing == "" || seen[s.Key] {
			t.Errorf("source %+v is incomplete or its key is taken", s)
		}
		seen[s.Key] = true
	}
}

func TestLimitsStandInOrder(t *testing.T) {
	for _, name := range Names() {
		c := find(t, name)
		volts := []float64{c.MinV.Value, c.DailyLowV.Value, c.DailyHighV.Value, c.MaxV.Value}
		temps := []float64{c.ChargeMinC.Value, c.ChargeMaxC.Value, c.AlarmC.Value, c.HarmC.Value}
		if !slices.IsSorted(volts) || volts[0] == volts[1] || volts[2] == volts[3] {
			t.Errorf("%s: voltages %v", name, volts)
		}
		if !slices.IsSorted(temps) {
			t.Errorf("%s: temperatures %v", name, temps)
		}
		if c.Acid != nil && !(c.MaxV.Value > c.Acid.EqualiseV.Value && c.MaxV.Value > c.Acid.AbsorptionV.Value && c.Acid.AbsorptionV.Value > c.Acid.FloatV.Value) {
			t.Errorf("%s: charge voltages do not stand below its upper limit", name)
		}
		if (c.Acid != nil) != (c.Family == LeadAcid) {
			t.Errorf("%s: lead-acid charge voltages and chemistry disagree", name)
		}
		if charge, _ := c.Window(c.DailyLowV.Value, c.DailyHighV.Value); charge < 0.4 {
			t.Errorf("%s: daily use has only %.0f %% of the charge", name, charge*100)
		}
	}
}

func TestNoLithiumIsChargedInFrostOrHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := Lookup(rapid.SampledFrom(Names()).Draw(t, "cell"))
		if err != nil {
			t.Fatal(err)
		}
		temp := rapid.Float64Range(-60, 90).Draw(t, "temperature")
		rate := c.ChargeRate(temp)
		if c.Family != LeadAcid && (temp <= 0 || temp >= 50) && rate != 0 {
			t.Fatalf("%s takes %g C at %g °C", c.Name, rate, temp)
		}
		if rate < 0 || rate > 0.5 {
			t.Fatalf("%s takes %g C at %g °C", c.Name, rate, temp)
		}
	})
}

func TestChargeRateByTemperature(t *testing.T) {
	for _, row := range []struct {
		name       string
		temp, want float64
	}{
		{"lfp", -0.001, 0}, {"lfp", 0, 0}, {"lfp", 1, 0.2}, {"lfp", 14.9, 0.2}, {"lfp", 15.5, 0.35}, {"lfp", 25, 0.5},
		{"lfp", 45, 0.5}, {"lfp", 47.5, 0.25}, {"lfp", 50, 0}, {"nmc532", 0, 0}, {"nmc532", 25, 0.5}, {"nca", -20, 0},
		{"lead-acid-flooded", -5, 0.15}, {"lead-acid-flooded", -20, 0}, {"lead-acid-agm", 20, 0.2}, {"nca", math.NaN(), 0},
	} {
		near.Equal(t, row.name, find(t, row.name).ChargeRate(row.temp), row.want, 1e-12)
	}
}

func TestMovingTheFrostLimitMovesTheLock(t *testing.T) {
	c := find(t, "nmc532")
	c.ChargeMinC.Value, c.ChargeMaxC.Value = 5, 40
	for temp, want := range map[float64]float64{5: 0, 5.1: 0.2, 39.9: 0.5, 40: 0} {
		near.Equal(t, "rate", c.ChargeRate(temp), want, 1e-12)
	}
}

func TestDischargeRateByTemperature(t *testing.T) {
	c := find(t, "lfp")
	for temp, want := range map[float64]float64{-21: 0, -20: 0.2, -5: 0.2, 0: 0.2, 0.5: 0.6, 1: 1, 60: 1, 60.1: 0} {
		near.Equal(t, "rate at "+text(temp, "°C"), c.DischargeRateAt(temp), want, 1e-12)
	}
}

func TestResistanceGrowsWithCold(t *testing.T) {
	c := find(t, "nmc532")
	near.Equal(t, "at 25 °C", c.ResistanceFactor(25), 1, 1e-12)
	near.Equal(t, "one 94 Ah cell", c.ResistanceOhm(94, 25), 0.062/94, 1e-12)
	for temp := -40.0; temp < 80; temp++ {
		if !(c.ResistanceFactor(temp) > c.ResistanceFactor(temp+1)) {
			t.Errorf("no fall from %g °C", temp)
		}
	}
	near.Equal(t, "held in deep cold", c.ResistanceFactor(-90), c.ResistanceFactor(-40), 0)
}
