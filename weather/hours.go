package weather

import (
	"errors"
	"math"

	"ampstead/physics/sun"
)

// Hours is the weather of consecutive hours at one place, a year as a rule: 8760
// or 8784 of them.
//
// Hour i begins i hours after Start. Light is either the mean over the hour
// (LightAt is then 0.5) or a sample taken LightAt hours after the hour begins,
// which may be a little outside the hour; the sun stood there. Temperature and
// wind are those AirAt hours after the hour begins: 0 for a reading at the full
// hour before it, 1 for one at its end, 0.5 for a mean.
type Hours struct {
	Place sun.Place
	Zone  float64     // hours by which the clock of the days is ahead of universal time
	Start sun.Instant // universal time; midnight by that clock as a rule

	GHI, DNI, DHI []float64 // W/m²: global horizontal, direct normal, diffuse horizontal
	TempC         []float64 // °C
	Wind          []float64 // m/s at 10 m

	LightAt float64
	AirAt   float64
	Sampled bool // light is samples, not means

	Basis Basis
}

// AssumedWind is the wind in m/s at 10 m where none is known.
const AssumedWind = 3.0

// New returns n empty hours.
func New(n int) *Hours {
	all := make([]float64, 5*n)
	part := func(i int) []float64 { return all[i*n : (i+1)*n : (i+1)*n] }
	return &Hours{GHI: part(0), DNI: part(1), DHI: part(2), TempC: part(3), Wind: part(4), LightAt: 0.5, AirAt: 0.5}
}

// Len returns the number of hours.
func (h *Hours) Len() int { return len(h.GHI) }

// Whole reports whether h is exactly one calendar year by its own clock.
func (h *Hours) Whole() bool {
	year, month, day, seconds := h.Start.Add(h.Zone*3600 + 1).Date()
	return month == 1 && day == 1 && seconds < 60 && h.Len() == 24*YearDays(year)
}

// YearDays returns the number of days of a year, 365 or 366.
func YearDays(year int) int {
	return int(math.Round(float64(sun.At(year+1, 1, 1, 0) - sun.At(year, 1, 1, 0))))
}

// ErrIncomplete says that the series differ in length or hold something that is
// not a number.
var ErrIncomplete = errors.New("weather is incomplete")

// Check returns ErrIncomplete unless every hour has all its values.
func (h *Hours) Check() error {
	for _, series := range [][]float64{h.GHI, h.DNI, h.DHI, h.TempC, h.Wind} {
		if len(series) != h.Len() || h.Len() == 0 {
			return ErrIncomplete
		}
		for _, v := range series {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return ErrIncomplete
			}
		}
	}
	return nil
}

// Hour returns which hour an instant lies in, and how far into it: 0 to 1. The
// index is outside 0 to Len-1 when the instant is.
func (h *Hours) Hour(t sun.Instant) (index int, into float64) {
	x := float64(t-h.Start) * 24
	whole := math.Floor(x)
	return int(whole), x - whole
}

// Air returns the temperature in °C and the wind in m/s at a time in hours since
// Start, straight lines between the readings. Around the ends of a whole year it
// joins December to January; elsewhere the end reading holds.
func (h *Hours) Air(hours float64) (tempC, wind float64) {
	x := hours - h.AirAt
	whole := math.Floor(x)
	i, f := int(whole), x-whole
	a, b := h.wrap(i), h.wrap(i+1)
	return h.TempC[a] + f*(h.TempC[b]-h.TempC[a]), h.Wind[a] + f*(h.Wind[b]-h.Wind[a])
}

// wrap brings an index inside: around the year, or to the nearest end.
func (h *Hours) wrap(i int) int {
	n := h.Len()
	switch {
	case i >= 0 && i < n:
		return i
	case n >= 8760 && i >= -n && i < 2*n:
		return (i + n) % n
	case i < 0:
		return 0
	}
	return n - 1
}

// Years cuts several years of hours at the turns of the year and returns the
// whole ones; they share memory with h.
func (h *Hours) Years() []*Hours {
	var years []*Hours
	year, _, _, _ := h.Start.Add(h.Zone*3600 + 1).Date()
	for ; ; year++ {
		start := sun.At(year, 1, 1, -h.Zone*3600)
		from := int(math.Round(float64(start-h.Start) * 24))
		to := from + 24*YearDays(year)
		if to > h.Len() {
			return years
		}
		if from >= 0 {
			years = append(years, h.cut(from, to))
		}
	}
}

func (h *Hours) cut(from, to int) *Hours {
	c := *h
	c.Start = h.Start.Add(float64(from) * 3600)
	c.GHI, c.DNI, c.DHI = h.GHI[from:to], h.DNI[from:to], h.DHI[from:to]
	c.TempC, c.Wind = h.TempC[from:to], h.Wind[from:to]
	return &c
}
