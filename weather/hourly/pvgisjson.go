package hourly

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"

	"ampstead/weather"
)

func isJSON(first []string) bool {
	return len(first) > 0 && strings.HasPrefix(strings.TrimSpace(first[0]), "{")
}

// pvgisFile is as much of the JSON as matters.
type pvgisFile struct {
	Inputs struct {
		Location struct {
			Latitude  *float64 `json:"latitude"`
			Longitude *float64 `json:"longitude"`
			Elevation float64  `json:"elevation"`
			Offset    float64  `json:"irradiance_time_offset"`
		} `json:"location"`
		Mounting struct {
			Fixed *struct {
				Slope struct {
					Value *float64 `json:"value"`
				} `json:"slope"`
			} `json:"fixed"`
		} `json:"mounting_system"`
	} `json:"inputs"`
	Outputs struct {
		Typical json.RawMessage `json:"tmy_hourly"`
		Hourly  json.RawMessage `json:"hourly"`
	} `json:"outputs"`
}

// pvgisRow is one hour: of a typical year, or on a plane.
type pvgisRow struct {
	UTC     string   `json:"time(UTC)"`
	Time    string   `json:"time"`
	Temp    *float64 `json:"T2m"`
	Wind    *float64 `json:"WS10m"`
	Global  *float64 `json:"G(h)"`
	Beam    *float64 `json:"Gb(n)"`
	Diffuse *float64 `json:"Gd(h)"`

	OnBeam    *float64 `json:"Gb(i)"`
	OnSky     *float64 `json:"Gd(i)"`
	Reflected *float64 `json:"Gr(i)"`
	Height    *float64 `json:"H_sun"`
}

func readJSON(f *file) (*weather.Hours, error) {
	var doc pvgisFile
	if err := json.Unmarshal(f.text, &doc); err != nil {
		return nil, fault(f.jsonLine(err), "", "%v", err)
	}
	p, rows, err := doc.pvgis()
	if err != nil {
		return nil, err
	}
	base := max(0, bytes.Index(f.text, rows))
	d := json.NewDecoder(bytes.NewReader(rows))
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return nil, fault(f.lineAt(base), "a list of hours", "the hours are not a list")
	}
	counter := lines{text: f.text, line: f.lineAt(base), at: base}
	for d.More() {
		line := counter.upTo(base + int(d.InputOffset()))
		var row pvgisRow
		if err := d.Decode(&row); err != nil {
			return nil, fault(line, "", "hour %d: %v", len(p.series.rows)+1, err)
		}
		if err := p.jsonRow(&row, line); err != nil {
			return nil, err
		}
	}
	return p.hours(counter.line)
}

func (doc *pvgisFile) pvgis() (pvgis, []byte, error) {
	at := doc.Inputs.Location
	if at.Latitude == nil || at.Longitude == nil {
		return pvgis{}, nil, fault(0, "PVGIS JSON with inputs.location", "the file has no latitude and longitude")
	}
	if !(math.Abs(at.Offset) <= 1) {
		return pvgis{}, nil, fault(0, "-1 to 1", "irradiance_time_offset is %g", at.Offset)
	}
	p := pvgis{place: place{lat: *at.Latitude, lon: *at.Longitude, elevation: at.Elevation},
		offset: at.Offset, slope: math.NaN(), calendar: newCalendar()}
	if fixed := doc.Inputs.Mounting.Fixed; fixed != nil && fixed.Slope.Value != nil {
		p.slope = *fixed.Slope.Value
	}
	rows := doc.Outputs.Hourly
	if len(doc.Outputs.Typical) > 0 {
		p.typical, rows = true, doc.Outputs.Typical
	}
	if len(rows) == 0 {
		return p, nil, fault(0, "outputs.tmy_hourly or outputs.hourly", "the file has no hours")
	}
	if err := p.place.check(0); err != nil {
		return p, nil, err
	}
	return p, rows, p.mustBeFlat(0)
}

// jsonRow appends an hour.
func (p *pvgis) jsonRow(row *pvgisRow, line int) error {
	r := record{line: line}
	beam, sky, reflected := row.Beam, row.Diffuse, row.Global
	when := row.UTC
	if !p.typical {
		beam, sky, reflected, when = row.OnBeam, row.OnSky, row.Reflected, row.Time
	}
	err := errors.Join(
		beamBounds.take(beam, line, &r.dni), diffuseBounds.take(sky, line, &r.dhi), globalBounds.take(reflected, line, &r.ghi),
		tempBounds.take(row.Temp, line, &r.temp), windBounds.take(row.Wind, line, &r.wind))
	if err == nil && !p.typical {
		height := math.NaN()
		if row.Height != nil {
			height = *row.Height
		}
		onBeam := r.dni
		r.dni = 0
		err = flat(&r, onBeam, r.dhi, r.ghi, height)
	}
	if err != nil {
		return err
	}
	return p.add(when, r)
}

// take checks a value that may be missing.
func (b bounds) take(v *float64, line int, to *float64) error {
	if v == nil {
		*to = math.NaN()
		return nil
	}
	var err error
	*to, err = b.check(*v, line)
	return err
}

// jsonLine finds the line of a decoding error.
func (f *file) jsonLine(err error) int {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		return f.lineAt(int(syntax.Offset))
	case errors.As(err, &kind):
		return f.lineAt(int(kind.Offset))
	}
	return f.lineAt(len(f.text))
}

func (f *file) lineAt(offset int) int {
	return 1 + bytes.Count(f.text[:max(0, min(offset, len(f.text)))], []byte("\n"))
}

// lines counts lines while going on through a text.
type lines struct {
	text     []byte
	line, at int
}

// upTo returns the line of the value that follows an offset.
func (l *lines) upTo(offset int) int {
	offset = max(l.at, min(offset, len(l.text)))
	for offset < len(l.text) && bytes.IndexByte([]byte(", \t\r\n"), l.text[offset]) >= 0 {
		offset++
	}
	l.line += bytes.Count(l.text[l.at:offset], []byte("\n"))
	l.at = offset
	return l.line
}
