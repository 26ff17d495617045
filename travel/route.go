package travel

import (
	"fmt"
	"time"

	"ampstead/fit"
	"ampstead/rig"
)

// yearDays is the length of every year here: the 29th of February is left out.
const yearDays = 365

// place is a stay ready for the year.
type place struct {
	stay                *rig.Stay
	latitude, longitude float64
	coldest, hottest    float64 // °C the bank's surroundings stay within
	shade               float64
	tilt, facing        float64
	mainsA              float64 // at the hook-up, 0 without
}

// day is one day of the route.
type day struct {
	place   int
	month   int // 1 to 12
	weekday int
	date    string
	driving float64 // s, from nine o'clock
}

// route is where the rig stands through the year.
type route struct {
	calendar int // the common year whose weekdays are used
	places   []place
	days     [yearDays]day
}

// Driving starts at this minute of the day and lasts no longer than this (s).
const (
	setOff    = 9 * 60
	mostDrive = 8 * 3600.0
)

// usualHookup is the mains current of a hook-up that states none, A.
const usualHookup = 10.0

// routeOf lays the stays over a year. Days between stays belong to the stay
// before. Errors: *fit.InputError for a route that is missing or lacks a place.
func routeOf(r *rig.Rig, anywhere bool) (*route, error) {
	if len(r.Route) == 0 {
		return nil, &fit.InputError{Path: "route", Message: "there is no route", Expected: "at least one stay, with dates and latitude and longitude",
			Example: "- {name: Salt marsh, from: 2026-11-01, to: 2027-02-20, latitude: 37.2 °N, longitude: 7.4 °W}"}
	}
	out := &route{calendar: commonYear(r.Route[0].From.Year())}
	for i := range r.Route {
		p, err := placeOf(&r.Route[i], anywhere)
		if err != nil {
			return nil, err
		}
		out.places = append(out.places, p)
	}
	out.fill()
	out.drive()
	return out, nil
}

// commonYear is the first year from y on without a leap day.
func commonYear(y int) int {
	for y%4 == 0 && (y%100 != 0 || y%400 == 0) {
		y++
	}
	return y
}

func placeOf(s *rig.Stay, anywhere bool) (place, error) {
	p := place{stay: s, coldest: -60, hottest: 70, facing: 180}
	if s.Latitude == nil || s.Longitude == nil {
		if !anywhere {
			return p, &fit.InputError{Path: "route." + s.Name, Message: "where it lies is not given", Expected: "latitude and longitude, a station nearby, or an hourly weather file",
				Example: "latitude: 37.2 °N"}
		}
	} else {
		p.latitude, p.longitude = float64(*s.Latitude), float64(*s.Longitude)
	}
	if s.Coldest != nil {
		p.coldest = float64(*s.Coldest)
	}
	if s.Hottest != nil {
		p.hottest = float64(*s.Hottest)
	}
	if s.Shade != nil {
		p.shade = float64(*s.Shade)
	}
	p.turn(s)
	if s.Hookup {
		p.mainsA = usualHookup
		if s.HookupLimit != nil {
			p.mainsA = float64(*s.HookupLimit)
		}
	}
	return p, nil
}

// turn takes the tilt of the panels, facing the noon sun unless stated.
func (p *place) turn(s *rig.Stay) {
	if p.latitude < 0 {
		p.facing = 0
	}
	if s.Tilt != nil {
		p.tilt = float64(*s.Tilt)
	}
	if s.Facing != nil {
		p.facing = float64(*s.Facing)
	}
}

// fill gives each day its place: the stay it lies in, else the one that ended
// last.
func (r *route) fill() {
	at := [yearDays]int{}
	for d := range at {
		at[d] = -1
	}
	for i := len(r.places) - 1; i >= 0; i-- {
		s := r.places[i].stay
		from, to := dayOfYear(s.From.Time), dayOfYear(s.To.Time)
		n := (to-from+yearDays)%yearDays + 1
		if s.To.Sub(s.From.Time) >= yearDays*24*time.Hour {
			n = yearDays
		}
		for k := range n {
			at[(from+k)%yearDays] = i
		}
	}
	for d := range r.days {
		when := time.Date(r.calendar, 1, 1+d, 0, 0, 0, 0, time.UTC)
		r.days[d] = day{place: lastKnown(at[:], d), month: int(when.Month()), weekday: int(when.Weekday()), date: when.Format(time.DateOnly)}
	}
}

// lastKnown looks back from a day, around the turn of the year.
func lastKnown(at []int, d int) int {
	for k := range at {
		if i := at[(d-k+len(at))%len(at)]; i >= 0 {
			return i
		}
	}
	return 0
}

// dayOfYear counts from 0; the 29th of February counts as the 28th.
func dayOfYear(t time.Time) int {
	d, m := t.Day(), t.Month()
	if m == time.February && d == 29 {
		d = 28
	}
	return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC).YearDay() - 1
}

// drive spreads the hours driven to each stay over the days that end with its
// first.
func (r *route) drive() {
	for i := range r.places {
		s := r.places[i].stay
		if s.Driving == nil {
			continue
		}
		left := float64(*s.Driving)
		for d := dayOfYear(s.From.Time); left > 0; d = (d + yearDays - 1) % yearDays {
			today := min(left, mostDrive-r.days[d].driving)
			if today <= 0 {
				break
			}
			r.days[d].driving += today
			left -= today
		}
	}
}

// findDay reads a month and day, or a date, as a day of the year.
func findDay(text string) (int, error) {
	for _, layout := range []string{time.DateOnly, "01-02"} {
		if t, err := time.Parse(layout, text); err == nil {
			return dayOfYear(t), nil
		}
	}
	return 0, fmt.Errorf("%q is not a day; expected month and day such as 01-15", text)
}
