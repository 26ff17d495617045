package keep

import (
	"math"
	"testing"
	"time"

	"ampstead/store"
)

func volts(list ...float64) []*float64 {
	out := make([]*float64, len(list))
	for k := range list {
		if !math.IsNaN(list[k]) {
			out[k] = &list[k]
		}
	}
	return out
}

func twelve(change func(v []float64)) []*float64 {
	v := []float64{3.861, 3.862, 3.860, 3.859, 3.863, 3.861, 3.860, 3.862, 3.861, 3.858, 3.860, 3.861}
	change(v)
	return volts(v...)
}

func as(v float64) *float64 { return &v }

func TestQuestion(t *testing.T) {
	r, _ := example(t, "curlew")
	at := time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC)
	nothing := func([]float64) {}
	last := store.Reading{ID: "last", Taken: at.AddDate(0, 0, -14), Groups: twelve(func(v []float64) { v[7] = 3.70; v[0] = 3.865 })}
	cases := []struct {
		name           string
		reading        store.Reading
		field, perhaps string // field "" expects no doubt
	}{
		{"nothing wrong", store.Reading{Groups: twelve(nothing)}, "", ""},
		{"groups not read", store.Reading{Groups: twelve(func(v []float64) { v[3] = math.NaN() })}, "", ""},
		{"millivolts", store.Reading{Groups: twelve(func(v []float64) { v[2] = 3860 })}, "groups.3", "3.86"},
		{"no point", store.Reading{Groups: twelve(func(v []float64) { v[2] = 386 })}, "groups.3", "3.86"},
		{"point one place on", store.Reading{Groups: twelve(func(v []float64) { v[2] = 38.6 })}, "groups.3", "3.86"},
		{"point one place back", store.Reading{Groups: twelve(func(v []float64) { v[11] = 0.3861 })}, "groups.12", "3.861"},
		{"swapped digits", store.Reading{Groups: twelve(func(v []float64) { v[4] = 3.683 })}, "groups.5", "3.863"},
		{"swapped over the point", store.Reading{Groups: twelve(func(v []float64) { v[4] = 8.363 })}, "groups.5", ""},
		{"far from the others", store.Reading{Groups: twelve(func(v []float64) { v[4] = 3.711 })}, "groups.5", ""},
		{"far, but so it was", store.Reading{Groups: twelve(func(v []float64) { v[7] = 3.70 })}, "", ""},
		{"the same again", store.Reading{Groups: last.Groups}, "groups", ""},
		{"negative", store.Reading{Groups: twelve(func(v []float64) { v[0] = -3.861 })}, "groups.1", ""},
		{"too few", store.Reading{Groups: twelve(nothing)[:11]}, "groups", ""},
		{"adds up", store.Reading{Groups: twelve(nothing), BankV: as(46.3)}, "", ""},
		{"bank voltage with its digits swapped", store.Reading{Groups: twelve(nothing), BankV: as(64.3)}, "bank_v", "46.3"},
		{"bank voltage without its point", store.Reading{Groups: twelve(nothing), BankV: as(463)}, "bank_v", "46.3"},
		{"bank voltage unlike the groups", store.Reading{Groups: twelve(nothing), BankV: as(44.1)}, "bank_v", ""},
		{"bank voltage alone", store.Reading{BankV: as(4.63)}, "bank_v", "46.3"},
		{"milliamperes", store.Reading{Groups: twelve(nothing), Amps: as(-4200)}, "current_a", "-4.2"},
		{"fahrenheit", store.Reading{Groups: twelve(nothing), TempsC: []float64{12, 95}}, "temperatures.2", "35 °C"},
		{"tomorrow's date", store.Reading{Groups: twelve(nothing), Entered: at.AddDate(-1, 0, 0)}, "taken", "2025-12-01"},
	}
	for _, c := range cases {
		c.reading.Taken = at
		got := Question(r, []store.Reading{last}, c.reading)
		switch {
		case c.field == "" && len(got) > 0:
			t.Errorf("%s: %+v", c.name, got)
		case c.field != "" && (len(got) != 1 || got[0].Field != c.field || got[0].Perhaps != c.perhaps || got[0].Found == ""):
			t.Errorf("%s: %+v, want %s %q", c.name, got, c.field, c.perhaps)
		}
	}
}

// The reading being corrected is none to compare with.
func TestACorrectionIsNoDuplicate(t *testing.T) {
	r, _ := example(t, "curlew")
	x := store.Reading{ID: "x", Taken: start, Groups: twelve(func([]float64) {})}
	if got := Question(r, []store.Reading{x}, x); len(got) > 0 {
		t.Error(got)
	}
}
