package travel

import (
	"math"
	"slices"
)

// monthsOf sums the days of a year by month.
func monthsOf(r *route, y *yearTally) []Month {
	list := make([]Month, 12)
	for i := range list {
		list[i] = Month{Month: i + 1, SoCMin: 1, BankTempMin: math.Inf(1), Stress: y.stress[i]}
	}
	for d := range y.days {
		m, t := &list[r.days[d].month-1], &y.days[d]
		m.add(&t.Energies)
		m.SoCMin, m.BankTempMin = min(m.SoCMin, t.socLow), min(m.BankTempMin, t.tempLow)
	}
	return list
}

// stays sums the days of a year by place.
func (s *study) stays(y *yearTally) []Stay {
	list := make([]Stay, len(s.route.places))
	for i := range list {
		p := &s.route.places[i]
		list[i] = Stay{Name: p.stay.Name, From: p.stay.From.String(), To: p.stay.To.String(), Latitude: p.latitude, Longitude: p.longitude, SoCMin: 1}
	}
	for d := range y.days {
		st, t := &list[s.route.days[d].place], &y.days[d]
		st.add(&t.Energies)
		st.Days++
		st.SoCMin = min(st.SoCMin, t.socLow)
	}
	return list
}

// days is the first year day by day, with the bands of all years.
func (s *study) days() []Day {
	list := make([]Day, yearDays)
	low, high := make([]float64, len(s.years)), make([]float64, len(s.years))
	for d := range list {
		t, at := &s.years[0].days[d], &s.route.days[d]
		for k, y := range s.years {
			low[k], high[k] = y.days[d].socLow, y.days[d].socHigh
		}
		list[d] = Day{
			Date: at.date, Place: s.route.places[at.place].stay.Name,
			SunOffered: t.SunOffered, SunCaught: t.SunCaught, Load: t.Load, Unserved: t.Unserved, LostFrost: t.LostFrost,
			SoCLow: t.socLow, SoCHigh: t.socHigh, TempLow: t.tempLow, TempHigh: t.tempHigh, AirLow: t.airLow, AirHigh: t.airHigh,
			SoCBandLow: bandOf(low).Low, SoCBandHigh: bandOf(high).High,
		}
	}
	return list
}

// bandsOf is how the years differ.
func bandsOf(years []*yearTally) Bands {
	band := func(of func(*Year) float64) Range {
		list := make([]float64, len(years))
		for k, y := range years {
			list[k] = of(&y.Year)
		}
		return bandOf(list)
	}
	return Bands{
		Years:         len(years),
		UnservedHours: band(func(y *Year) float64 { return y.UnservedH }),
		Unserved:      band(func(y *Year) float64 { return y.Unserved }),
		SunCaught:     band(func(y *Year) float64 { return y.SunCaught }),
		SoCMin:        band(func(y *Year) float64 { return y.SoCMin }),
		FrostLockedH:  band(func(y *Year) float64 { return y.FrostLockedH }),
		LostFrost:     band(func(y *Year) float64 { return y.LostFrost }),
		Heater:        band(func(y *Year) float64 { return y.Heater }),
	}
}

// fewYears is below how many years the extremes are shown instead of the 10th
// and 90th percentile.
const fewYears = 10

// bandOf sorts list.
func bandOf(list []float64) Range {
	slices.Sort(list)
	share := 0.1
	if len(list) < fewYears {
		share = 0
	}
	return Range{Low: quantile(list, share), Middle: quantile(list, 0.5), High: quantile(list, 1-share)}
}

// quantile of a sorted list, by straight lines between its members.
func quantile(list []float64, share float64) float64 {
	x := share * float64(len(list)-1)
	k := min(int(x), len(list)-1)
	if k+1 >= len(list) {
		return list[k]
	}
	return list[k] + (x-float64(k))*(list[k+1]-list[k])
}
