package weather

import (
	"errors"
	"math"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/sun"
	"ampstead/source"
)

// ramp is some days of hours from a date on by a clock, the temperature counting
// the hours.
func ramp(year, month, day, days int, zone float64) *Hours {
	h := New(24 * days)
	h.Zone, h.Start = zone, sun.At(year, month, day, -zone*3600)
	for i := range h.TempC {
		h.TempC[i], h.GHI[i] = float64(i), 100
	}
	return h
}

func TestAirMeetsItsMoment(t *testing.T) {
	h := ramp(2026, 5, 1, 2, 0)
	for _, at := range []float64{0, 0.5, 1} {
		h.AirAt = at
		got, _ := h.Air(10 + at)
		near.Equal(t, "reading", got, 10, 1e-9)
		got, _ = h.Air(10.25 + at)
		near.Equal(t, "a quarter on", got, 10.25, 1e-9)
	}
	got, _ := h.Air(-5)
	near.Equal(t, "before the start", got, 0, 0)
	got, _ = h.Air(400)
	near.Equal(t, "after the end", got, 47, 0)
}

// A whole year goes round.
func TestAirJoinsTheYear(t *testing.T) {
	h := ramp(2026, 1, 1, 365, 0)
	h.AirAt = 0.5
	got, _ := h.Air(0)
	near.Equal(t, "between December and January", got, 8759.0/2, 1e-9)
}

func TestHourOfAnInstant(t *testing.T) {
	h := ramp(2026, 5, 1, 2, 2)
	index, into := h.Hour(sun.At(2026, 4, 30, 22*3600+5400))
	near.Equal(t, "into", into, 0.5, 1e-6)
	if index != 1 {
		t.Errorf("hour %d, want 1", index)
	}
	if index, _ = h.Hour(sun.At(2026, 4, 30, 20*3600)); index >= 0 {
		t.Errorf("hour %d before the start", index)
	}
}

func TestWholeYears(t *testing.T) {
	for _, tt := range []struct {
		year, days int
		zone       float64
		whole      bool
	}{{2026, 365, -5, true}, {2024, 366, 12.7, true}, {2024, 365, 0, false}, {2026, 366, 0, false}, {2026, 10, 0, false}} {
		if got := ramp(tt.year, 1, 1, tt.days, tt.zone).Whole(); got != tt.whole {
			t.Errorf("%+v: %v", tt, got)
		}
	}
	list := ramp(2023, 6, 1, 1500, 5.5).Years()
	if len(list) != 3 {
		t.Fatalf("%d years of 2024 to 2026", len(list))
	}
	for i, y := range list {
		year, _, _, _ := y.Start.Add(5.5*3600 + 1).Date()
		if !y.Whole() || year != 2024+i || y.Check() != nil {
			t.Errorf("year %d: %d hours from %d", i, y.Len(), year)
		}
	}
	near.Equal(t, "first temperature", list[0].TempC[0], 24*214, 0)
}

func TestCheckFindsHoles(t *testing.T) {
	h := ramp(2026, 1, 1, 1, 0)
	if err := h.Check(); err != nil {
		t.Error(err)
	}
	h.Wind[5] = math.NaN()
	if err := h.Check(); !errors.Is(err, ErrIncomplete) {
		t.Error(err)
	}
	if err := (&Hours{}).Check(); !errors.Is(err, ErrIncomplete) {
		t.Error(err)
	}
	h = ramp(2026, 1, 1, 1, 0)
	h.DNI = h.DNI[:3]
	if err := h.Check(); !errors.Is(err, ErrIncomplete) {
		t.Error(err)
	}
}

func TestMonthlyOfAYear(t *testing.T) {
	h := ramp(2026, 1, 1, 365, 9)
	for i := range h.TempC {
		h.TempC[i] = float64(i % 24)
	}
	m, err := h.Monthly()
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range m.Months {
		near.Equal(t, "irradiation", v.GHI, 2400, 1e-9)
		near.Equal(t, "temperature", v.TempC, 11.5, 1e-9)
		near.Equal(t, "range", v.RangeK, 23, 1e-9)
		near.Equal(t, "day to day", v.DayK, 0, 1e-5)
		if d := h.Days()[45]; i == 1 && d.Month != 2 {
			t.Errorf("day 45 is of month %d", d.Month)
		}
	}
	near.Equal(t, "year", m.YearGHI(), 365*2400, 1e-6)
	if err := m.Check(); err != nil {
		t.Error(err)
	}
	if _, err := ramp(2026, 1, 1, 31, 0).Monthly(); !errors.Is(err, ErrIncomplete) {
		t.Error(err)
	}
}

func TestMonthlyCheck(t *testing.T) {
	for name, spoil := range map[string]func(*Monthly){
		"latitude":    func(m *Monthly) { m.Place.Latitude = 91 },
		"irradiation": func(m *Monthly) { m.Months[3].GHI = -1 },
		"temperature": func(m *Monthly) { m.Months[3].TempC = math.NaN() },
		"range":       func(m *Monthly) { m.Months[3].RangeK = math.Inf(1) },
	} {
		var m Monthly
		spoil(&m)
		if m.Check() == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}

func TestBasis(t *testing.T) {
	b := Basis{Sources: []source.Source{source.ClimateGHI, source.Aguiar1988}}
	if b.Weak() || len(b.Keys()) != 2 || b.Keys()[0] != "nasa-sse-6" {
		t.Errorf("%v %v", b.Weak(), b.Keys())
	}
	b.Sources = append(b.Sources, source.FAO56)
	if !b.Weak() {
		t.Error("a remembered source is not weak")
	}
}
