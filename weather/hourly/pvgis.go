package hourly

import (
	"fmt"
	"math"
	"strings"

	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
)

// pvgis is what both its formats share: rows of samples in universal time, of a
// typical year or of several years on end.
type pvgis struct {
	place   place
	offset  float64 // hours after the full hour at which light was sampled
	typical bool
	slope   float64 // of the plane of an hourly series, degrees; NaN when it is not fixed

	series   series
	calendar calendar
	start    sun.Instant
	first    moment
}

// moment is a stamp of PVGIS, YYYYMMDD:HHMM.
type moment struct{ year, month, day, hour, minute int }

func readMoment(text string, line int) (moment, error) {
	if len(text) != 13 || text[8] != ':' {
		return moment{}, fault(line, "YYYYMMDD:HHMM", "the time is %q", clip(text))
	}
	parts := []string{text[:4], text[4:6], text[6:8], text[9:11], text[11:]}
	v, err := ints(parts, line, "year", 0, "month", 1, "day", 2, "hour", 3, "minute", 4)
	if err != nil {
		return moment{}, err
	}
	m := moment{v[0], v[1], v[2], v[3], v[4]}
	if !onCalendar(m.year, m.month, m.day, m.hour, m.minute) {
		return moment{}, fault(line, "YYYYMMDD:HHMM", "the time is %q", clip(text))
	}
	return m, nil
}

// add checks that the row follows the one before and appends it.
func (p *pvgis) add(text string, r record) error {
	m, err := readMoment(text, r.line)
	if err != nil {
		return err
	}
	if p.typical {
		err = p.calendar.see(stamp{m.month, m.day, m.hour}, r.line)
	} else {
		err = p.follows(m, r.line)
	}
	if err != nil {
		return err
	}
	return p.series.add(r)
}

// follows checks a row of a series against the first one.
func (p *pvgis) follows(m moment, line int) error {
	at := sun.At(m.year, m.month, m.day, float64(m.hour)*3600)
	if len(p.series.rows) == 0 {
		p.start, p.first = at, m
	}
	want := p.start.Add(float64(len(p.series.rows)) * 3600)
	if math.Abs(float64(at-want))*24 > 0.01 || m.minute != p.first.minute {
		year, month, day, seconds := want.Date()
		return fault(line, fmt.Sprintf("%04d%02d%02d:%02d%02d", year, month, day, int(math.Round(seconds/3600)), p.first.minute),
			"the row does not follow the one before")
	}
	return nil
}

// hours closes the series; line is the last one read.
func (p *pvgis) hours(line int) (*weather.Hours, error) {
	if len(p.series.rows) == 0 {
		return nil, fault(line, "hourly rows", "the file has none")
	}
	if p.typical {
		if err := p.calendar.end(line); err != nil {
			return nil, err
		}
	}
	h, err := p.series.hours(source.PVGIS)
	if err != nil {
		return nil, err
	}
	p.place.set(h, p.calendar.year())
	h.Sampled, h.LightAt, h.AirAt = true, p.offset, 0
	h.Basis.Years = "typical year"
	if !p.typical {
		h.Start, h.LightAt = p.start, float64(p.first.minute)/60
		last, _, _, _ := p.start.Add(float64(h.Len()-1) * 3600).Date()
		h.Basis.Years = fmt.Sprintf("%d-%d", p.first.year, last)
	}
	return h, nil
}

// flat turns light on a horizontal plane into the usual three: beam, sky and
// reflected light on the plane in W/m², height of the sun in degrees. Of a sun
// below 3° all light counts as diffuse.
func flat(r *record, beam, sky, reflected, height float64) error {
	r.ghi = beam + sky + reflected
	r.dhi = r.ghi
	if height > 3 && beam > 0 {
		r.dhi = sky + reflected
		r.dni = beam / math.Sin(height*math.Pi/180)
	}
	if r.dni > beamBounds.high {
		return fault(r.line, beamBounds.text(), "direct irradiance comes to %.0f", r.dni)
	}
	return nil
}

// mustBeFlat refuses series on another plane than the horizontal.
func (p *pvgis) mustBeFlat(line int) error {
	if p.typical || p.slope == 0 {
		return nil
	}
	if math.IsNaN(p.slope) {
		return fault(line, "an hourly series on a fixed plane of slope 0°", "the series is on a plane that turns, or does not say its slope")
	}
	return fault(line, "an hourly series of slope 0°", "the series is on a plane of slope %g°, from which the light on others cannot be told", p.slope)
}

func isPVGIS(first []string) bool {
	return len(first) > 0 && strings.HasPrefix(first[0], "Latitude (decimal degrees)")
}
