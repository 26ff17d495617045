package weather

import (
	"fmt"
	"math"

	"ampstead/physics/sun"
)

// Month is the mean weather of one month of the year.
type Month struct {
	GHI    float64 // global horizontal irradiation of a day, Wh/m²
	TempC  float64 // mean temperature, °C
	RangeK float64 // mean daily maximum minus minimum, K
	DayK   float64 // standard deviation of the daily mean temperature, K

	SpreadGHI float64 // standard deviation of the month's GHI from year to year, as a fraction
	SpreadK   float64 // the same of its mean temperature, K
}

// Monthly is the climate of a place.
type Monthly struct {
	Place  sun.Place
	Months [12]Month
	Inland float64 // 1 far from the sea, 0 at the coast

	// How far the means themselves may be off, as standard deviations: a
	// fraction and K. Unlike the spread this does not average out over years.
	DoubtGHI, DoubtK float64

	Basis Basis
}

// The limits of what counts as weather on land.
const (
	coldest, hottest = -95.0, 65.0
	mostDaily        = 13e3 // Wh/m²; the sky's edge gives 12.5 kWh/m² at most
)

// Check returns an error that names the first figure no place on Earth has.
func (m *Monthly) Check() error {
	if !(math.Abs(m.Place.Latitude) <= 90) || !(math.Abs(m.Place.Longitude) <= 360) {
		return fmt.Errorf("there is no place at latitude %g°, longitude %g°", m.Place.Latitude, m.Place.Longitude)
	}
	for i, v := range m.Months {
		switch {
		case !(v.GHI >= 0 && v.GHI <= mostDaily):
			return fmt.Errorf("month %d: irradiation of %g Wh/m² a day is not between 0 and %g", i+1, v.GHI, mostDaily)
		case !(v.TempC >= coldest && v.TempC <= hottest):
			return fmt.Errorf("month %d: mean temperature of %g °C is not between %g and %g", i+1, v.TempC, coldest, hottest)
		}
		for _, x := range []float64{v.RangeK, v.DayK, v.SpreadGHI, v.SpreadK} {
			if !(x >= 0 && x <= 60) {
				return fmt.Errorf("month %d: a range or spread of %g is not between 0 and 60", i+1, x)
			}
		}
	}
	return nil
}

// YearGHI returns the irradiation of a year of 365 days in Wh/m².
func (m *Monthly) YearGHI() float64 {
	sum := 0.0
	for i, v := range m.Months {
		sum += v.GHI * float64(MonthDays[i])
	}
	return sum
}

// MonthDays are the days of each month of a common year.
var MonthDays = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
