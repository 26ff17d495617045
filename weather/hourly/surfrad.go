package hourly

import (
	"math"
	"strconv"
	"strings"

	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
)

func isSURFRAD(first []string) bool {
	if len(first) < 3 {
		return false
	}
	fields := strings.Fields(first[1])
	return len(fields) >= 5 && fields[3] == "m" && fields[4] == "version"
}

// surfradColumns are where values stand; the flag of each stands behind it, and 0
// is a good one.
var surfradColumns = columns{
	ghi: 8, dhi: 14, dni: 12, temp: 38, wind: 42,
	noLight: []float64{-9999.9}, noTemp: []float64{-9999.9}, noWind: []float64{-9999.9},
}

// enough is how many good minutes make an hour.
const enough = 30

// surfrad averages minutes, of universal time, to hours.
type surfrad struct {
	series series
	start  sun.Instant
	minute int // minutes read since start
	hour   [5]average
}

// average is a mean of what is not missing.
type average struct{ sum, n float64 }

func readSURFRAD(f *file) (*weather.Hours, error) {
	v, err := floats(strings.Fields(f.line(2)), 2, "latitude", 0, "longitude", 1, "elevation", 2)
	if err != nil {
		return nil, err
	}
	p := place{lat: v[0], lon: -v[1], elevation: v[2]}
	if err := p.check(2); err != nil {
		return nil, err
	}
	var s surfrad
	for i, text := range f.lines[2:] {
		if strings.TrimSpace(text) == "" {
			continue
		}
		if err := s.row(strings.Fields(text), i+3); err != nil {
			return nil, err
		}
	}
	if len(s.series.rows) == 0 || s.minute%1440 != 0 {
		return nil, fault(len(f.lines), "whole days of 1440 minutes", "the file ends %d minutes into a day", s.minute%1440)
	}
	h, err := s.series.hours(source.SURFRAD)
	if err != nil {
		return nil, err
	}
	year, _, _, _ := s.start.Date()
	p.set(h, year)
	h.Start = s.start
	h.Basis.Years = strconv.Itoa(year)
	return h, nil
}

func (s *surfrad) row(fields []string, line int) error {
	when, err := ints(fields, line, "year", 0, "month", 2, "day", 3, "hour", 4, "minute", 5)
	if err != nil {
		return err
	}
	if !onCalendar(when[0], when[1], when[2], when[3], when[4]) {
		return fault(line, "year, day of the year, month, day, hour and minute", "the time is %v", when)
	}
	at := sun.At(when[0], when[1], when[2], float64(when[3]*3600+when[4]*60))
	if s.minute == 0 {
		s.start = at
	}
	if math.Abs(float64(at-s.start)*1440-float64(s.minute)) > 0.01 {
		return fault(line, "one row a minute", "the row does not follow the one before")
	}
	for _, c := range []int{surfradColumns.ghi, surfradColumns.dni, surfradColumns.dhi, surfradColumns.temp, surfradColumns.wind} {
		if c+1 < len(fields) && fields[c+1] != "0" {
			fields[c] = ""
		}
	}
	r, err := surfradColumns.record(fields, line)
	if err != nil {
		return err
	}
	return s.add(r)
}

func (s *surfrad) add(r record) error {
	for i, v := range []float64{r.ghi, r.dni, r.dhi, r.temp, r.wind} {
		if !math.IsNaN(v) {
			s.hour[i].sum += v
			s.hour[i].n++
		}
	}
	s.minute++
	if s.minute%60 != 0 {
		return nil
	}
	h := s.hour
	s.hour = [5]average{}
	return s.series.add(record{line: r.line, ghi: h[0].mean(), dni: h[1].mean(), dhi: h[2].mean(), temp: h[3].mean(), wind: h[4].mean()})
}

// mean is NaN without enough of it.
func (a average) mean() float64 {
	if a.n < enough {
		return math.NaN()
	}
	return a.sum / a.n
}
