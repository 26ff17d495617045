package hourly

import (
	"strings"

	"ampstead/source"
	"ampstead/weather"
)

func isEPW(first []string) bool {
	return len(first) > 0 && strings.HasPrefix(strings.ToUpper(first[0]), "LOCATION,")
}

// EPW has eight header lines and 35 fields a row. An hour is named by its end.
const epwHeader = 8

var epwColumns = columns{
	ghi: 13, dni: 14, dhi: 15, temp: 6, wind: 21,
	noLight: []float64{9999, 99999, 999999}, noTemp: []float64{99.9, 999}, noWind: []float64{999, 999.9},
}

func readEPW(f *file) (*weather.Hours, error) {
	p, err := epwPlace(f.line(1))
	if err != nil {
		return nil, err
	}
	var s series
	c := newCalendar()
	for i := epwHeader; i < len(f.lines); i++ {
		if f.lines[i] == "" {
			continue
		}
		if err := s.epwRow(f.lines[i], i+1, &c); err != nil {
			return nil, err
		}
	}
	if err := c.end(len(f.lines)); err != nil {
		return nil, err
	}
	h, err := s.hours(source.EPWFormat)
	if err != nil {
		return nil, err
	}
	p.set(h, c.year())
	h.AirAt = 1
	h.Basis.Years = "typical year"
	if strings.Contains(f.line(1), "ECMWF/ERA") {
		sampledEPW(h, p, c.year())
	}
	return h, nil
}

// sampledEPW sets right the files of one publisher, whose rows are samples of
// universal time whatever the header says of the zone: light a good ten minutes
// after the full hour, air at it.
func sampledEPW(h *weather.Hours, p place, year int) {
	p.zone = 0
	p.set(h, year)
	h.Sampled, h.LightAt, h.AirAt = true, 0.17, 0
	h.Basis.Sources = append(h.Basis.Sources, source.PVGIS)
	h.Basis.Notes = append(h.Basis.Notes, "the header says ECMWF/ERA: rows taken as samples in universal time, light 0.17 h after the full hour")
}

func (s *series) epwRow(text string, line int, c *calendar) error {
	fields := strings.Split(text, ",")
	when, err := ints(fields, line, "month", 1, "day", 2, "hour", 3)
	if err != nil {
		return err
	}
	if err := c.see(stamp{when[0], when[1], when[2] - 1}, line); err != nil {
		return err
	}
	r, err := epwColumns.record(fields, line)
	if err != nil {
		return err
	}
	return s.add(r)
}

// epwPlace reads LOCATION,city,state,country,source,number,lat,lon,zone,elevation.
func epwPlace(text string) (place, error) {
	fields := strings.Split(text, ",")
	v, err := floats(fields, 1, "latitude", 6, "longitude", 7, "time zone", 8, "elevation", 9)
	if err != nil {
		return place{}, err
	}
	p := place{lat: v[0], lon: v[1], zone: v[2], elevation: v[3]}
	return p, p.check(1)
}
