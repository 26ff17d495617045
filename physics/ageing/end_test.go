package ageing

import (
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
)

// TestXuYears is a published set's own answer: 6.845 years to a loss of 0.20 with
// one cycle of 0.8 a day, computed outside this program; 2786.7 whole cycles.
func TestXuYears(t *testing.T) {
	years, ok := model(t, "xu").Start().YearsTo(0.8, []Stress{{Days: 365.25, SoC: 0.5, TempC: 25, Depth: 0.8, Throughput: 0.8 * 365.25}})
	near.Relative(t, "years", years, 6.845, 0.001)
	if !ok {
		t.Error("not reached")
	}
}

func TestYearsToEnds(t *testing.T) {
	m := model(t, "naumann")
	rest := []Stress{{Days: 365.25, SoC: 0.5, TempC: 20}}
	for _, row := range []struct {
		name     string
		life     Life
		capacity float64
		year     []Stress
		want     float64
		reached  bool
	}{
		{"there already", m.From(Past{Capacity: 0.7}), 0.8, rest, 0, true},
		{"no time", m.Start(), 0.8, nil, horizon, false},
		{"beyond the horizon", m.Start(), 0.1, []Stress{{Days: 365.25, SoC: 0.2, TempC: 0}}, horizon, false},
	} {
		years, reached := row.life.YearsTo(row.capacity, row.year)
		near.Equal(t, row.name, years, row.want, 0)
		if reached != row.reached {
			t.Errorf("%s: reached %v", row.name, reached)
		}
	}
}

// TestYearsToIsWhereStepsArrive lives through the years that YearsTo finds.
func TestYearsToIsWhereStepsArrive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyModel(t)
		warm := Stress{Days: 200, SoC: 0.7, TempC: rapid.Float64Range(20, 40).Draw(t, "warm"), Depth: 0.4, Throughput: 60, CRate: 0.2}
		cold := Stress{Days: 165, SoC: 0.5, TempC: 5, Depth: 0.6, Throughput: 80, CRate: 0.2}
		years, reached := m.Start().YearsTo(0.85, []Stress{warm, cold})
		if !reached {
			return
		}
		days, l := years*daysAYear, m.Start()
		for k := 0; days > 0; k++ {
			s := []Stress{warm, cold}[k%2]
			share := min(1, days/s.Days)
			l.Add(part(s, share))
			days -= s.Days
		}
		near.Equal(drawn{t: t}, "capacity", l.Capacity(), 0.85, 1e-6)
	})
}
