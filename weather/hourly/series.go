package hourly

import (
	"fmt"
	"math"

	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
)

// series gathers the rows of a file.
type series struct {
	rows []record
}

// longestGap is the hours without temperature that are bridged by a straight
// line.
const longestGap = 6

// typicalYear is the calendar year that typical years are set in: in the middle
// between leap years, so that the sun stands as on average. leapYear is for files
// with a 29 February.
const typicalYear, leapYear = 2002, 2004

// add appends a row. Light may not be missing.
func (s *series) add(r record) error {
	if len(s.rows) >= mostHours {
		return fault(r.line, "", "there are more than %d hours", mostHours)
	}
	if math.IsNaN(r.ghi) || math.IsNaN(r.dni) || math.IsNaN(r.dhi) {
		return fault(r.line, "global, direct and diffuse irradiance in every row", "irradiance is missing")
	}
	s.rows = append(s.rows, r)
	return nil
}

// hours closes the series.
func (s *series) hours(of source.Source) (*weather.Hours, error) {
	h := weather.New(len(s.rows))
	for i, r := range s.rows {
		h.GHI[i], h.DNI[i], h.DHI[i], h.TempC[i], h.Wind[i] = r.ghi, r.dni, r.dhi, r.temp, r.wind
	}
	h.Basis.Sources = append(h.Basis.Sources, of)
	filled, at := bridge(h.TempC, longestGap)
	if at >= 0 {
		return nil, fault(s.rows[at].line, "", "temperature is missing for more than %d hours", longestGap)
	}
	if filled > 0 {
		h.Basis.Notes = append(h.Basis.Notes, fmt.Sprintf("%d hours of temperature filled by straight lines", filled))
	}
	fillWind(h)
	return h, nil
}

// fillWind bridges gaps of any length; without any reading it takes the assumed
// wind.
func fillWind(h *weather.Hours) {
	filled, at := bridge(h.Wind, len(h.Wind))
	if at >= 0 {
		for i := range h.Wind {
			h.Wind[i] = weather.AssumedWind
		}
		h.Basis.Sources = append(h.Basis.Sources, source.CalmWind)
		h.Basis.Notes = append(h.Basis.Notes, "the file has no wind; a steady 3 m/s is assumed")
	} else if filled > 0 {
		h.Basis.Notes = append(h.Basis.Notes, fmt.Sprintf("%d hours of wind filled by straight lines", filled))
	}
}

// bridge fills gaps of NaN by straight lines, or by the nearest value at the
// ends. It returns how many it filled, and where a gap longer than the limit
// begins, or -1. A series without any value is one such gap.
func bridge(v []float64, longest int) (filled, at int) {
	last := -1
	for i := 0; i <= len(v); i++ {
		if i < len(v) && math.IsNaN(v[i]) {
			continue
		}
		if gap := i - last - 1; gap > longest || gap == len(v) && gap > 0 {
			return filled, last + 1
		} else if gap > 0 {
			fill(v, last, i)
			filled += gap
		}
		last = i
	}
	return filled, -1
}

// fill joins v[from] and v[to] by a straight line; an end that is not there takes
// the other's value.
func fill(v []float64, from, to int) {
	for i := from + 1; i < to; i++ {
		switch {
		case from < 0:
			v[i] = v[to]
		case to == len(v):
			v[i] = v[from]
		default:
			v[i] = v[from] + (v[to]-v[from])*float64(i-from)/float64(to-from)
		}
	}
}

// stamp is the month, day and hour (0 to 23, the hour's beginning) of a row.
type stamp struct{ month, day, hour int }

func (s stamp) String() string { return fmt.Sprintf("month %d day %d hour %d", s.month, s.day, s.hour) }

// calendar checks that rows follow each other hour by hour from 1 January on.
type calendar struct {
	next stamp
	leap bool
}

func newCalendar() calendar { return calendar{next: stamp{1, 1, 0}} }

// see checks the next stamp and steps on. A 29 February makes it a leap year.
func (c *calendar) see(s stamp, line int) error {
	if s == (stamp{2, 29, 0}) && c.next == (stamp{3, 1, 0}) {
		c.next, c.leap = s, true
	}
	if c.next.month > 12 {
		return fault(line, "the end of the file", "the year is over before this row of %v", s)
	}
	if s != c.next {
		return fault(line, c.next.String(), "the row is of %v", s)
	}
	c.next.hour++
	if c.next.hour < 24 {
		return nil
	}
	c.next.day, c.next.hour = c.next.day+1, 0
	days := weather.MonthDays[s.month-1]
	if s.month == 2 && s.day == 29 {
		days = 29
	}
	if c.next.day > days {
		c.next.month, c.next.day = s.month+1, 1
	}
	return nil
}

// end checks that the year is whole.
func (c *calendar) end(line int) error {
	if c.next != (stamp{13, 1, 0}) {
		return fault(line, c.next.String(), "the file ends before the year does")
	}
	return nil
}

// year is the calendar year to set the hours in.
func (c *calendar) year() int {
	if c.leap {
		return leapYear
	}
	return typicalYear
}

// place is what headers say: degrees, m, hours ahead of universal time.
type place struct{ lat, lon, elevation, zone float64 }

// check refuses what is not on Earth.
func (p place) check(line int) error {
	for _, b := range []struct {
		bounds bounds
		v      float64
	}{
		{bounds{"latitude", -90, -90, 90}, p.lat}, {bounds{"longitude", -180, -180, 360}, p.lon},
		{bounds{"elevation", -450, -450, 9000}, p.elevation}, {bounds{"time zone", -14, -14, 14}, p.zone},
	} {
		if _, err := b.bounds.check(b.v, line); err != nil {
			return err
		}
	}
	return nil
}

// set puts hours at a place and a year that begins at midnight of its clock.
func (p place) set(h *weather.Hours, year int) {
	h.Place = sun.Place{Latitude: p.lat, Longitude: p.lon, Elevation: p.elevation}
	h.Zone = p.zone
	h.Start = sun.At(year, 1, 1, -p.zone*3600)
}
