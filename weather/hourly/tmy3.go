package hourly

import (
	"strings"

	"ampstead/source"
	"ampstead/weather"
)

func isTMY3(first []string) bool {
	return len(first) > 1 && strings.HasPrefix(first[1], "Date (MM/DD/YYYY)")
}

func readTMY3(f *file) (*weather.Hours, error) {
	p, err := tmy3Place(f.line(1))
	if err != nil {
		return nil, err
	}
	cols, err := find(strings.Split(f.line(2), ","), 2,
		[5]string{"GHI (W/m^2)", "DNI (W/m^2)", "DHI (W/m^2)", "Dry-bulb (C)", "Wspd (m/s)"})
	if err != nil {
		return nil, err
	}
	cols.noLight = []float64{-9900, -99}
	cols.noTemp, cols.noWind = []float64{-9900, -99}, []float64{-9900, -99}
	var s series
	c := newCalendar()
	for i, text := range f.lines[2:] {
		if text == "" {
			continue
		}
		if err := s.tmy3Row(text, i+3, cols, &c); err != nil {
			return nil, err
		}
	}
	if err := c.end(len(f.lines)); err != nil {
		return nil, err
	}
	return typical(&s, p, &c, source.TMY3Manual)
}

// typical closes a typical year whose hours are named by their end.
func typical(s *series, p place, c *calendar, of source.Source) (*weather.Hours, error) {
	h, err := s.hours(of)
	if err != nil {
		return nil, err
	}
	p.set(h, c.year())
	h.AirAt = 1
	h.Basis.Years = "typical year"
	return h, nil
}

// tmy3Row reads a row that begins MM/DD/YYYY,HH:00, the hour being its end.
func (s *series) tmy3Row(text string, line int, cols columns, c *calendar) error {
	fields := strings.Split(text, ",")
	if len(fields) < 2 {
		return fault(line, "date, time and values", "the row has one field")
	}
	parts := append(strings.Split(fields[0], "/"), strings.Split(fields[1], ":")...)
	when, err := ints(parts, line, "month", 0, "day", 1, "hour", 3, "minute", 4)
	if err != nil {
		return err
	}
	if when[3] != 0 {
		return fault(line, "full hours", "the minute is %d", when[3])
	}
	if err := c.see(stamp{when[0], when[1], when[2] - 1}, line); err != nil {
		return err
	}
	r, err := cols.record(fields, line)
	if err != nil {
		return err
	}
	return s.add(r)
}

// tmy3Place reads code,"name",state,zone,lat,lon,elevation; the name may hold a
// comma.
func tmy3Place(text string) (place, error) {
	fields := strings.Split(text, ",")
	n := len(fields)
	v, err := floats(fields, 1, "time zone", n-4, "latitude", n-3, "longitude", n-2, "elevation", n-1)
	if err != nil {
		return place{}, err
	}
	p := place{zone: v[0], lat: v[1], lon: v[2], elevation: v[3]}
	return p, p.check(1)
}
