package sun

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{SunPosition, SunTimes, SolarDay, ExtraterrestrialNormal, AirMassAt, ClearSky, ClearSkyAt, DiffuseShare}
}

// Inputs that several figures share.
var (
	latitude   = figure.Input{Name: "latitude", Dim: quantity.DegreesNorth, Doc: "of the place, north positive"}
	longitude  = figure.Input{Name: "longitude", Dim: quantity.DegreesEast, Doc: "of the place, east positive"}
	when       = figure.Input{Name: "time", Doc: "date and time with its distance from UTC, as RFC 3339 writes it", Example: "2003-10-17T12:30:30-07:00"}
	height     = figure.Input{Name: "elevation", Dim: quantity.Metres, Doc: "of the place above the sea", Default: "0 m"}
	turbidity  = figure.Input{Name: "turbidity", Dim: quantity.Plain, Doc: "Linke's: 2 very clean and cold, 2.5 to 3 clean country, 4 summer, 5 to 6 humid or dusty", Default: "3"}
	deltaTText = figure.Input{Name: "delta-t", Doc: "terrestrial minus universal time, such as 67 s; left out, the polynomials of Espenak & Meeus", Default: byPolynomial, Example: `"67 s"`}
)

const byPolynomial = "polynomial"

func check(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// inside refuses a number outside its limits, and what is not a number.
func inside(a figure.Args, name string, least, most float64) error {
	if v := a.Num(name); !(v >= least && v <= most) {
		return fmt.Errorf("%s must be from %g to %g: %w", name, least, most, figure.ErrRange)
	}
	return nil
}

// scene reads the place and the time of a figure.
func scene(a figure.Args) (Place, Instant, error) {
	at, err := ParseTime(a.Text("time"))
	if err != nil {
		return Place{}, 0, fmt.Errorf("time: %w", err)
	}
	for _, limit := range []struct {
		name        string
		least, most float64
	}{{"latitude", -90, 90}, {"longitude", -360, 360}, {"elevation", -500, 9000}} {
		if err := inside(a, limit.name, limit.least, limit.most); err != nil {
			return Place{}, 0, err
		}
	}
	return Place{a.Num("latitude"), a.Num("longitude"), a.Num("elevation")}, at, nil
}

// readDeltaT takes the seconds written, or the polynomial's.
func readDeltaT(a figure.Args, t Instant) (float64, error) {
	text := a.Text("delta-t")
	if text == byPolynomial {
		return DeltaT(t), nil
	}
	seconds, err := quantity.Seconds.Parse(text)
	if err != nil || math.Abs(seconds) > 8000 {
		return 0, fmt.Errorf("delta-t %q: expected seconds such as 67 s, up to 8000 s", text)
	}
	return seconds, nil
}

// ApparentSun returns the direction of the sun as seen through the standard air
// of a place, for figures that start from a place and a time.
func ApparentSun(t Instant, at Place) Direction {
	p := Find(t, DeltaT(t), at, StandardAir(at.Elevation))
	return Toward(90-p.Elevation, p.Azimuth)
}
