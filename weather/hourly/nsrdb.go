package hourly

import (
	"strconv"
	"strings"

	"ampstead/source"
	"ampstead/weather"
)

func isNSRDB(first []string) bool {
	return len(first) > 2 && strings.Contains(first[0], "Time Zone") && strings.Contains(first[0], "Latitude") &&
		strings.HasPrefix(first[2], "Year,Month,Day,Hour,Minute")
}

// nsrdb reads rows of samples, one or two an hour.
type nsrdb struct {
	columns  columns
	calendar calendar
	series   series
	minutes  []int // at which an hour is sampled, from the rows of the first hour
	hour     []record
	years    map[int]bool
}

func readNSRDB(f *file) (*weather.Hours, error) {
	p, err := nsrdbPlace(strings.Split(f.line(1), ","), strings.Split(f.line(2), ","))
	if err != nil {
		return nil, err
	}
	n := nsrdb{calendar: newCalendar(), years: map[int]bool{}}
	n.columns, err = find(strings.Split(f.line(3), ","), 3, [5]string{"GHI", "DNI", "DHI", "Temperature", "Wind Speed"})
	if err != nil {
		return nil, err
	}
	n.minutes = sampling(f)
	for i, text := range f.lines[3:] {
		if strings.Trim(text, ", ") == "" {
			continue
		}
		if err := n.row(strings.Split(text, ","), i+4); err != nil {
			return nil, err
		}
	}
	if err := n.calendar.end(len(f.lines)); err != nil {
		return nil, err
	}
	return n.hours(p)
}

// sampling returns the minutes of the first hour's rows: {30}, {0} or {0, 30}.
func sampling(f *file) []int {
	var minutes []int
	for line := 4; line <= 5; line++ {
		fields := strings.Split(f.line(line), ",")
		if len(fields) > 4 && strings.TrimSpace(fields[3]) == "0" {
			if m, err := strconv.Atoi(strings.TrimSpace(fields[4])); err == nil {
				minutes = append(minutes, m)
			}
		}
	}
	return minutes
}

func (n *nsrdb) row(fields []string, line int) error {
	when, err := ints(fields, line, "year", 0, "month", 1, "day", 2, "hour", 3, "minute", 4)
	if err != nil {
		return err
	}
	at := len(n.hour)
	if at >= len(n.minutes) || when[4] != n.minutes[at] {
		return fault(line, "one row an hour, or two at minutes 0 and 30", "the minute is %d", when[4])
	}
	n.years[when[0]] = true
	r, err := n.columns.record(fields, line)
	if err != nil {
		return err
	}
	n.hour = append(n.hour, r)
	if at+1 < len(n.minutes) {
		return nil
	}
	if err := n.calendar.see(stamp{when[1], when[2], when[3]}, line); err != nil {
		return err
	}
	r = mean(n.hour)
	n.hour = n.hour[:0]
	return n.series.add(r)
}

// mean averages the rows of an hour.
func mean(rows []record) record {
	sum := record{line: rows[0].line}
	n := float64(len(rows))
	for _, r := range rows {
		sum.ghi += r.ghi / n
		sum.dni += r.dni / n
		sum.dhi += r.dhi / n
		sum.temp += r.temp / n
		sum.wind += r.wind / n
	}
	return sum
}

func (n *nsrdb) hours(p place) (*weather.Hours, error) {
	h, err := n.series.hours(source.NSRDB)
	if err != nil {
		return nil, err
	}
	p.set(h, n.calendar.year())
	h.Basis.Years = "typical year"
	for year := range n.years {
		if len(n.years) == 1 && 24*weather.YearDays(year) == h.Len() {
			p.set(h, year)
			h.Basis.Years = strconv.Itoa(year)
		}
	}
	sum := 0
	for _, m := range n.minutes {
		sum += m
	}
	h.LightAt = float64(sum) / 60 / float64(len(n.minutes))
	h.AirAt, h.Sampled = h.LightAt, true
	return h, nil
}

// nsrdbPlace reads the values that stand below their names.
func nsrdbPlace(names, values []string) (place, error) {
	v, err := floats(values, 2, "Latitude", index(names, "Latitude"), "Longitude", index(names, "Longitude"),
		"Time Zone", index(names, "Time Zone"), "Elevation", index(names, "Elevation"))
	if err != nil {
		return place{}, err
	}
	p := place{lat: v[0], lon: v[1], zone: v[2], elevation: v[3]}
	return p, p.check(2)
}
