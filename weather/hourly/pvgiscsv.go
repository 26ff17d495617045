package hourly

import (
	"math"
	"strconv"
	"strings"

	"ampstead/weather"
)

// pvgisHeader is how many lines may come before the rows.
const pvgisHeader = 64

func readPVGIS(f *file) (*weather.Hours, error) {
	p := pvgis{calendar: newCalendar(), slope: math.NaN()}
	at, err := p.header(f)
	if err != nil {
		return nil, err
	}
	names := strings.Split(f.line(at), ",")
	read, err := p.reader(names, at)
	if err != nil {
		return nil, err
	}
	line := at + 1
	for ; line <= len(f.lines); line++ {
		text := f.line(line)
		if text == "" || text[0] < '0' || text[0] > '9' {
			break // the legend
		}
		fields := strings.Split(text, ",")
		r, err := read(fields, line)
		if err != nil {
			return nil, err
		}
		if err := p.add(fields[0], r); err != nil {
			return nil, err
		}
	}
	return p.hours(line - 1)
}

// header reads what comes before the row of names and returns the line of that.
func (p *pvgis) header(f *file) (int, error) {
	for line := 1; line <= min(len(f.lines), pvgisHeader); line++ {
		text := f.line(line)
		if strings.HasPrefix(text, "time") {
			p.typical = strings.HasPrefix(text, "time(UTC)")
			return line, p.place.check(line)
		}
		if err := p.headerLine(text, line); err != nil {
			return 0, err
		}
	}
	return 0, fault(min(len(f.lines), pvgisHeader), "a row of names that begins with time", "there is none")
}

func (p *pvgis) headerLine(text string, line int) error {
	name, value, _ := strings.Cut(text, ":")
	words := strings.Fields(value)
	to := map[string]*float64{
		"Latitude (decimal degrees)":  &p.place.lat,
		"Longitude (decimal degrees)": &p.place.lon,
		"Elevation (m)":               &p.place.elevation,
		"Irradiance Time Offset (h)":  &p.offset,
		"Slope":                       &p.slope,
	}[name]
	if to == nil {
		return nil
	}
	if len(words) == 0 {
		return fault(line, "a number", "%s has no value", name)
	}
	v, err := strconv.ParseFloat(words[0], 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return fault(line, "a number", "%s is %q", name, clip(words[0]))
	}
	if to == &p.offset && math.Abs(v) > 1 {
		return fault(line, "-1 to 1", "%s is %g", name, v)
	}
	*to = v
	return nil
}

// reader returns how to read the rows below a row of names.
func (p *pvgis) reader(names []string, line int) (func([]string, int) (record, error), error) {
	if p.typical {
		cols, err := find(names, line, [5]string{"G(h)", "Gb(n)", "Gd(h)", "T2m", "WS10m"})
		return cols.record, err
	}
	if err := p.mustBeFlat(line); err != nil {
		return nil, err
	}
	cols, err := find(names, line, [5]string{"Gb(i)", "Gd(i)", "Gr(i)", "T2m", "WS10m"})
	height := index(names, "H_sun")
	if err == nil && height < 0 {
		err = fault(line, `a column "H_sun"`, "the row of names has none")
	}
	return func(fields []string, line int) (record, error) {
		r, err := cols.record(fields, line)
		if err != nil {
			return r, err
		}
		h, err := floats(fields, line, "height of the sun", height)
		if err != nil {
			return r, err
		}
		beam, sky, reflected := r.ghi, r.dni, r.dhi
		r.dni = 0
		return r, flat(&r, beam, sky, reflected, h[0])
	}, err
}
