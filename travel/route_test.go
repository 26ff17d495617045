package travel

import (
	"errors"
	"testing"

	"ampstead/fit"
	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

func stay(name, from, to string) rig.Stay {
	date := func(text string) *rig.Date {
		d, err := rig.ParseDate(text)
		if err != nil {
			panic(err)
		}
		return &d
	}
	return rig.Stay{Name: name, From: date(from), To: date(to), Latitude: quantityOf[q.Latitude](40), Longitude: quantityOf[q.Longitude](0)}
}

func TestRouteFillsTheYear(t *testing.T) {
	winter, spring := stay("winter", "2026-11-01", "2027-02-20"), stay("spring", "2027-03-01", "2027-05-31")
	spring.Driving = quantityOf[q.Duration](20 * 3600)
	w, err := routeOf(&rig.Rig{Route: []rig.Stay{winter, spring}}, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		day, place int
		why        string
	}{
		{0, 0, "around the turn of the year"}, {50, 0, "20 February"}, {55, 0, "a gap belongs to the stay before"},
		{59, 1, "1 March"}, {150, 1, "31 May"}, {200, 1, "a gap"}, {303, 1, "31 October"}, {304, 0, "1 November"},
	} {
		if w.days[c.day].place != c.place {
			t.Errorf("day %d (%s) is at place %d", c.day, c.why, w.days[c.day].place)
		}
	}
	for k, want := range []float64{4, 8, 8, 0} {
		near.Equal(t, "driven", w.days[57+k].driving/3600, want, 1e-9)
	}
	if w.calendar != 2026 || w.days[59].date != "2026-03-01" || w.days[0].weekday != 4 {
		t.Errorf("year %d, day 59 %s, 1 January weekday %d", w.calendar, w.days[59].date, w.days[0].weekday)
	}
}

func TestRouteIsNeeded(t *testing.T) {
	var in *fit.InputError
	if _, err := routeOf(&rig.Rig{}, false); !errors.As(err, &in) || in.Path != "route" {
		t.Errorf("%v", err)
	}
	nowhere := stay("nowhere", "2027-01-01", "2027-12-31")
	nowhere.Latitude = nil
	if _, err := routeOf(&rig.Rig{Route: []rig.Stay{nowhere}}, false); !errors.As(err, &in) || in.Path != "route.nowhere" {
		t.Errorf("%v", err)
	}
	if _, err := routeOf(&rig.Rig{Route: []rig.Stay{nowhere}}, true); err != nil {
		t.Errorf("with a weather file: %v", err)
	}
}

func TestSouthFacesNorth(t *testing.T) {
	s := stay("south", "2027-01-01", "2027-12-31")
	s.Latitude = quantityOf[q.Latitude](-33)
	p, err := placeOf(&s, false)
	if err != nil || p.facing != 0 {
		t.Errorf("faces %g, %v", p.facing, err)
	}
}

func TestBands(t *testing.T) {
	near.Equal(t, "low of few", bandOf([]float64{3, 1, 2}).Low, 1, 0)
	many := make([]float64, 21)
	for k := range many {
		many[k] = float64(20 - k)
	}
	b := bandOf(many)
	near.Equal(t, "10th", b.Low, 2, 1e-12)
	near.Equal(t, "50th", b.Middle, 10, 1e-12)
	near.Equal(t, "90th", b.High, 18, 1e-12)
}

func TestStepIsChecked(t *testing.T) {
	for step, ok := range map[float64]bool{60: true, 10: true, 300: true, 3600: true, 7: false, 90: false, 0.5: false, 7200: false} {
		_, err := prepare(open(t, "dipper"), Options{StepS: step})
		if (err == nil) != ok {
			t.Errorf("step %g s: %v", step, err)
		}
	}
}
