package habit

import (
	"slices"
	"testing"

	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

func room(tempC float64) []float64 {
	r := make([]float64, 24)
	for h := range r {
		r[h] = tempC
	}
	return r
}

// wattHours is what a feed is asked for over some days from Monday on.
func wattHours(a Appliance, days int, date Date, tempC float64) (total float64) {
	d := NewDay(1)
	for k := range days {
		date.Day, date.Weekday = k, (1+k)%7
		d.Fill([]Appliance{a}, 5, date, room(tempC))
		for _, w := range d.Watts[0] {
			total += w / 60
		}
	}
	return total
}

// Over many days every habit comes to its hours, however the days differ.
func TestHabitsKeepTheirHours(t *testing.T) {
	const days = 21000
	for _, c := range []struct {
		name  string
		a     Appliance
		share float64 // of the days
	}{
		{"a third of an hour", Appliance{Watts: 700, Hours: 1.0 / 3}, 1},
		{"weekdays", Appliance{Watts: 180, Hours: 3, Days: "weekdays", When: "daylight"}, 5.0 / 7},
		{"weekends", Appliance{Watts: 180, Hours: 3, Days: "weekends", When: "morning"}, 2.0 / 7},
		{"one in two", Appliance{Watts: 100, Hours: 2, Days: "one in two"}, 0.5},
		{"one in seven", Appliance{Watts: 100, Hours: 2, Days: "one in seven", When: "night"}, 1.0 / 7},
		{"longer than its part of the day", Appliance{Watts: 24, Hours: 8, When: "evening"}, 1},
		{"steady", Appliance{Watts: 45, Hours: 9, Steady: true}, 1},
	} {
		near.Relative(t, c.name, wattHours(c.a, days, Date{Month: 1}, 20), c.a.Watts*c.a.Hours*c.share*days, 0.04)
	}
}

func TestDaysDifferAndRepeat(t *testing.T) {
	list := []Appliance{{Watts: 700, Hours: 1}, {Watts: 50, Hours: 2, When: "evening"}}
	one, two := NewDay(1), NewDay(1)
	one.Fill(list, 1, Date{Day: 3, Month: 1}, room(20))
	two.Fill(list, 1, Date{Day: 4, Month: 1}, room(20))
	if slices.Equal(one.Watts[0], two.Watts[0]) {
		t.Error("two days are alike")
	}
	two.Fill(list, 1, Date{Day: 3, Month: 1}, room(20))
	if !slices.Equal(one.Watts[0], two.Watts[0]) {
		t.Error("a day does not repeat")
	}
	two.Fill(list, 2, Date{Day: 3, Month: 1}, room(20))
	if slices.Equal(one.Watts[0], two.Watts[0]) {
		t.Error("another seed gives the same day")
	}
}

// An appliance of the evening is used in the evening.
func TestPartOfTheDay(t *testing.T) {
	d := NewDay(1)
	for k := range 50 {
		d.Fill([]Appliance{{Watts: 10, Hours: 2, When: "evening"}}, 1, Date{Day: k, Month: 6}, room(20))
		for m, w := range d.Watts[0] {
			if w > 0 && (m < 17*60 || m >= 23*60) {
				t.Fatalf("day %d: used at %d:%02d", k, m/60, m%60)
			}
		}
	}
}

// Heat leaks in with the difference to the 5 °C inside: 20 K at 25 °C, 30 K at 35 °C.
func TestFridgeFollowsWarmth(t *testing.T) {
	near.Equal(t, "25 °C", Cooling(25), 1, 1e-12)
	near.Equal(t, "35 °C", Cooling(35), 1.5, 1e-12)
	near.Equal(t, "15 °C", Cooling(15), 0.5, 1e-12)
	near.Equal(t, "in the cold", Cooling(-10), leastShare, 1e-12)
	fridge := Appliance{Watts: 45, Hours: 9, Steady: true, Cools: true}
	near.Relative(t, "a day at 35 °C", wattHours(fridge, 1, Date{Month: 7}, 35), 45*13.5, 1e-9)
	near.Relative(t, "never more than always", wattHours(fridge, 1, Date{Month: 7}, 90), 45*24, 1e-9)
}

func TestSeasons(t *testing.T) {
	for _, c := range []struct {
		season string
		date   Date
		want   bool
	}{
		{"winter", Date{Month: 1}, true}, {"winter", Date{Month: 1, South: true}, false}, {"winter", Date{Month: 7, South: true}, true},
		{"summer", Date{Month: 6}, true}, {"cold half", Date{Month: 10}, true}, {"cold half", Date{Month: 4}, false},
		{"warm half", Date{Month: 4}, true}, {"spring", Date{Month: 5}, true}, {"autumn", Date{Month: 9}, true}, {"", Date{Month: 9}, true},
	} {
		if got := inSeason(c.season, c.date); got != c.want {
			t.Errorf("%q in month %d, south %v: %v", c.season, c.date.Month, c.date.South, got)
		}
	}
}

func TestReadsTheRig(t *testing.T) {
	watts, hours, duty := q.Power(60), q.Duration(1800), q.Ratio(0.4)
	r := &rig.Rig{Loads: []rig.Load{
		{Name: "reading lamp", On: "12 V", Power: &watts, Hours: &hours, People: 2},
		{Name: "fridge", On: "bank", Power: &watts, Duty: &duty, Follows: "warmth", BypassesRelay: true},
		{Name: "radio", On: "12 V", Power: &watts},
	}}
	list, assumed := Of(r, []string{Bank, BeforeDisconnect, "12 V"})
	near.Equal(t, "two people", list[0].Hours, 1, 1e-12)
	near.Equal(t, "duty", list[1].Hours, 9.6, 1e-12)
	if list[0].Feed != 2 || list[1].Feed != 1 || !list[1].Cools || len(assumed) != 1 {
		t.Errorf("feeds %d, %d; cools %v; assumed %v", list[0].Feed, list[1].Feed, list[1].Cools, assumed)
	}
}

// A start is where its appliance begins to run.
func TestStarts(t *testing.T) {
	d := NewDay(1)
	d.Fill([]Appliance{{Watts: 700, Start: 2100, Hours: 0.5}}, 1, Date{Month: 1}, room(20))
	if len(d.Starts) != 1 || d.Starts[0].Watts != 1400 || d.Watts[0][d.Starts[0].Minute] == 0 {
		t.Errorf("%+v", d.Starts)
	}
}
