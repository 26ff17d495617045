package synthetic

import "ampstead/weather"

// daySeason is what the climate expects of a day of the year.
type daySeason struct {
	mean, spread float64 // of the daily mean temperature, °C and K
	span         float64 // of its course, K
	light        float64 // Wh/m²
}

// newSeason joins the months by straight lines between their middles, which are
// set so that each month keeps its mean temperature.
func newSeason(climate *weather.Monthly, months []monthSpan, sky []daySky) []daySeason {
	season := make([]daySeason, len(sky))
	middles := middles(climate, months)
	for i, m := range months {
		for d := m.from; d < m.to; d++ {
			other, f := neighbour(m, i, d, months)
			here, there := climate.Months[i], climate.Months[other]
			s := &season[d]
			s.mean = middles[i] + f*(middles[other]-middles[i])
			s.spread = (here.DayK + f*(there.DayK-here.DayK)) / inMonth
			s.span = courseRange(here.RangeK+f*(there.RangeK-here.RangeK), s.spread)
			s.light = m.mean * sky[d].outside
		}
	}
	return season
}

// neighbour returns the month on the other side of a day's middle of the month
// and how far the way there the day is, 0 to 1.
func neighbour(m monthSpan, month, d int, months []monthSpan) (other int, way float64) {
	offset := float64(d) + 0.5 - float64(m.from+m.to)/2
	other = (month + 1) % 12
	if offset < 0 {
		other, offset = (month+11)%12, -offset
	}
	return other, offset / (float64(m.to-m.from+months[other].to-months[other].from) / 2)
}

// middles returns the temperatures in the middles of the months.
func middles(climate *weather.Monthly, months []monthSpan) (t [12]float64) {
	for i := range t {
		t[i] = climate.Months[i].TempC
	}
	for range 8 {
		next := t
		for i, m := range months {
			sum := 0.0
			for d := m.from; d < m.to; d++ {
				other, f := neighbour(m, i, d, months)
				sum += t[i] + f*(t[other]-t[i])
			}
			next[i] += climate.Months[i].TempC - sum/float64(m.to-m.from)
		}
		t = next
	}
	return t
}

// courseRange returns the range of the day's course that makes the whole daily
// range come out: change from day to day adds to it.
func courseRange(daily, spread float64) float64 { return max(0.3*daily, daily-0.1*spread) }
