package climate

import (
	"math"

	"ampstead/physics/sun"
	"ampstead/weather"
)

// Estimate fills in what monthly means do not say: the daily range of
// temperature (FAO-56 equation 50 turned round, after Hargreaves and Samani), its
// spread from day to day (fitted to station months) and the spread of both means
// from year to year. It serves a person's own means as well.
func Estimate(m *weather.Monthly) {
	warmest, coldest := m.Months[0].TempC, m.Months[0].TempC
	for _, v := range m.Months {
		warmest, coldest = max(warmest, v.TempC), min(coldest, v.TempC)
	}
	for i := range m.Months {
		v := &m.Months[i]
		kt := Clearness(m, i)
		v.RangeK = DailyRange(kt, m.Inland)
		v.DayK = DayToDay(warmest-coldest, warmest-v.TempC)
		n := float64(weather.MonthDays[i])
		c := classes[classOf(kt)]
		v.SpreadGHI = min(0.3, meanSpread(c.spread, c.persistence, n)/max(kt, 0.1))
		v.SpreadK = meanSpread(v.DayK, Persistence, n)
	}
}

// Persistence is the correlation of the mean temperature of successive days.
const Persistence = 0.7

// Clearness returns the clearness index of a month of the year counting from 0:
// its irradiation over that outside the air. In polar night, where there is
// none, it is 0.5.
func Clearness(m *weather.Monthly, month int) float64 {
	first := 1
	for _, days := range weather.MonthDays[:month] {
		first += days
	}
	sum := 0.0
	for d := range weather.MonthDays[month] {
		sum += sun.DailyExtraterrestrial(m.Place.Latitude, first+d, sun.SolarConstant)
	}
	outside := sum / float64(weather.MonthDays[month])
	if outside < 20 {
		return 0.5
	}
	return min(0.85, m.Months[month].GHI/outside)
}

// DailyRange returns the mean daily maximum minus minimum of temperature in K
// from the clearness index of the month: (K/k)², k being 0.16 inland (1) and 0.19
// at the coast (0).
func DailyRange(clearness, inland float64) float64 {
	root := clearness / (0.19 - 0.03*inland)
	return min(25, root*root)
}

// DayToDay returns the standard deviation of daily mean temperature in a month,
// in K, from the difference of the warmest and coldest month's means and from how
// far the month is below the warmest one, both in K. It is within 1.1 K (root
// mean square) of the 72 station months it was fitted to.
func DayToDay(yearRange, below float64) float64 { return 0.62 + 0.082*yearRange + 0.109*below }

// meanSpread is the standard deviation of the mean of n successive days that
// have a spread and persistence: a first-order chain's.
func meanSpread(spread, persistence, n float64) float64 {
	return spread * math.Sqrt((1+persistence)/(1-persistence)/n)
}

// classes are the day-to-day spread and persistence of the clearness index that
// the matrices of Aguiar et al. 1988 have in the long run, by class of the
// month's clearness index: up to 0.30, 0.35 … 0.70, above.
var classes = [10]struct{ spread, persistence float64 }{
	{0.156, 0.38}, {0.167, 0.02}, {0.166, 0.28}, {0.167, 0.31}, {0.167, 0.32},
	{0.157, 0.31}, {0.153, 0.23}, {0.136, 0.24}, {0.119, 0.20}, {0.073, 0.25},
}

func classOf(kt float64) int {
	return max(0, min(9, int(math.Ceil((kt-0.30)/0.05-1e-9))))
}
