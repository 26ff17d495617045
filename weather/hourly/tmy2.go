package hourly

import (
	"strings"

	"ampstead/source"
	"ampstead/weather"
)

// A TMY2 row has this many characters at least: up to the wind.
const tmy2Row = 98

func isTMY2(first []string) bool {
	if len(first) < 2 || len(first[1]) < tmy2Row || len(first[0]) < 50 {
		return false
	}
	_, err := floats([]string{first[0][1:6], first[1][1:9]}, 1, "station", 0, "date", 1)
	return err == nil
}

// tmy2Fields are where the columns stand: from, up to, all in tenths of the unit
// from the fourth on.
var tmy2Fields = [5][2]int{{17, 21}, {23, 27}, {29, 33}, {67, 71}, {95, 98}}

func readTMY2(f *file) (*weather.Hours, error) {
	p, err := tmy2Place(f.line(1))
	if err != nil {
		return nil, err
	}
	var s series
	c := newCalendar()
	for i, text := range f.lines[1:] {
		if strings.Trim(text, " \x1a") == "" {
			continue
		}
		if err := s.tmy2Row(text, i+2, &c); err != nil {
			return nil, err
		}
	}
	if err := c.end(len(f.lines)); err != nil {
		return nil, err
	}
	return typical(&s, p, &c, source.TMY2Manual)
}

func (s *series) tmy2Row(text string, line int, c *calendar) error {
	if len(text) < tmy2Row {
		return fault(line, "98 characters at least", "the row has %d", len(text))
	}
	when, err := ints([]string{text[3:5], text[5:7], text[7:9]}, line, "month", 0, "day", 1, "hour", 2)
	if err != nil {
		return err
	}
	if err := c.see(stamp{when[0], when[1], when[2] - 1}, line); err != nil {
		return err
	}
	fields := make([]string, len(tmy2Fields))
	for i, at := range tmy2Fields {
		fields[i] = text[at[0]:at[1]]
		if i > 2 {
			fields[i] += "e-1"
		}
	}
	cols := columns{0, 1, 2, 3, 4, []float64{9999}, []float64{999.9}, []float64{99.9}}
	r, err := cols.record(fields, line)
	if err != nil {
		return err
	}
	return s.add(r)
}

// tmy2Place reads the header: station, name, state, zone, latitude and longitude
// as letter, degrees and minutes, elevation.
func tmy2Place(text string) (place, error) {
	fields := strings.Fields(text)
	n := len(fields)
	v, err := floats(fields, 1, "time zone", n-8, "degrees of latitude", n-6, "minutes of latitude", n-5,
		"degrees of longitude", n-3, "minutes of longitude", n-2, "elevation", n-1)
	if err != nil {
		return place{}, err
	}
	p := place{zone: v[0], lat: v[1] + v[2]/60, lon: v[3] + v[4]/60, elevation: v[5]}
	switch north, east := fields[n-7], fields[n-4]; {
	case north != "N" && north != "S", east != "E" && east != "W":
		return place{}, fault(1, "N or S, E or W", "the position is %s, %s", clip(north), clip(east))
	case north == "S":
		p.lat = -p.lat
	}
	if fields[n-4] == "W" {
		p.lon = -p.lon
	}
	return p, p.check(1)
}
