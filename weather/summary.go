package weather

import (
	"fmt"
	"math"

	"ampstead/physics/sun"
)

// Day is what a day of hours comes to.
type Day struct {
	Month             int     // 1 to 12
	GHI               float64 // Wh/m²
	MeanC, MinC, MaxC float64
	Outside           float64 // extraterrestrial on a level surface, Wh/m²
}

// Clearness returns the clearness index of the day, or NaN in polar night.
func (d Day) Clearness() float64 {
	if d.Outside < 300 {
		return math.NaN()
	}
	return d.GHI / d.Outside
}

// Days sums up the whole days of h, which start with Start.
func (h *Hours) Days() []Day {
	days := make([]Day, h.Len()/24)
	for i := range days {
		noon := h.Start.Add((float64(24*i) + 12 + h.Zone) * 3600)
		_, days[i].Month, _, _ = noon.Date()
		days[i].Outside = sun.DailyExtraterrestrial(h.Place.Latitude, noon.DayOfYear(), sun.SolarConstant)
		days[i].fill(h.GHI[24*i:24*i+24], h.TempC[24*i:24*i+24])
	}
	return days
}

func (d *Day) fill(light, temp []float64) {
	d.MinC, d.MaxC = temp[0], temp[0]
	for i, t := range temp {
		d.GHI += light[i]
		d.MeanC += t / 24
		d.MinC, d.MaxC = min(d.MinC, t), max(d.MaxC, t)
	}
}

// Monthly returns the monthly means of a whole year, with the range and the
// spread of temperature from day to day as they are in it; the spreads between
// years stay 0, for one year does not show them. So a person's own hourly file
// can stand in for the climate table. Errors: a month of h has no day.
func (h *Hours) Monthly() (Monthly, error) {
	m := Monthly{Place: h.Place, Inland: 1, Basis: h.Basis}
	var n, squares [12]float64
	for _, d := range h.Days() {
		i := d.Month - 1
		v := &m.Months[i]
		n[i]++
		v.GHI += d.GHI
		v.TempC += d.MeanC
		v.RangeK += d.MaxC - d.MinC
		squares[i] += d.MeanC * d.MeanC
	}
	for i := range m.Months {
		if n[i] == 0 {
			return Monthly{}, fmt.Errorf("the hours have no day of month %d: %w", i+1, ErrIncomplete)
		}
		v := &m.Months[i]
		v.GHI, v.TempC, v.RangeK = v.GHI/n[i], v.TempC/n[i], v.RangeK/n[i]
		v.DayK = math.Sqrt(max(0, squares[i]/n[i]-v.TempC*v.TempC))
	}
	return m, nil
}
