package synthetic

import (
	"fmt"

	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
)

// Generator makes years of hours for one place; preparing it costs as much as a
// few years. It does not change and may be shared.
type Generator struct {
	climate *weather.Monthly
	start   sun.Instant
	zone    float64
	sky     []daySky
	months  []monthSpan
	season  []daySeason
}

// New prepares the hours of a calendar year for a climate. The days run by mean
// solar time, so Zone is longitude/15. Errors: the climate's Check, or a year
// before 1600 or after 2400.
func New(climate *weather.Monthly, calendar int) (*Generator, error) {
	if err := climate.Check(); err != nil {
		return nil, err
	}
	if calendar < 1600 || calendar > 2400 {
		return nil, fmt.Errorf("calendar year %d is not between 1600 and 2400", calendar)
	}
	g := &Generator{climate: climate, zone: climate.Place.Longitude / 15}
	g.start = sun.At(calendar, 1, 1, -g.zone*3600)
	g.sky = newSky(climate.Place, calendar, weather.YearDays(calendar), g.zone)
	g.prepareMonths()
	g.season = newSeason(climate, g.months, g.sky)
	return g, nil
}

// Year makes one whole year; see New, Generator.Year.
func Year(climate *weather.Monthly, calendar int, seed uint64, number int) (*weather.Hours, error) {
	g, err := New(climate, calendar)
	if err != nil {
		return nil, err
	}
	return g.Year(seed, number), nil
}

// Year makes the year of a number from 0 on.
func (g *Generator) Year(seed uint64, number int) *weather.Hours {
	return g.Part(seed, number, 1, len(g.sky))
}

// Part makes the days first to last of that year, 1 being 1 January: the very
// hours that Year has there.
func (g *Generator) Part(seed uint64, number, first, last int) *weather.Hours {
	number = max(number, 0)
	first, last = max(first, 1), min(last, len(g.sky))
	h := weather.New(24 * max(last-first+1, 0))
	h.Place, h.Zone, h.Start = g.climate.Place, g.zone, g.start.Add(float64(first-1)*86400)
	light := g.drawDays(seed, number)
	g.fillLight(seed, number, light, first-1, h)
	g.fillTemperature(seed, number, light, first-1, last-1, h)
	for i := range h.Wind {
		h.Wind[i] = weather.AssumedWind
	}
	h.Basis = g.basis(seed, number)
	return h
}

func (g *Generator) fillLight(seed uint64, number int, light []float64, first int, h *weather.Hours) {
	for d := range h.Len() / 24 {
		draw := dayDraw(seed, number, first+d)
		g.sky[first+d].fillDay(light[first+d], &draw, h, 24*d)
	}
}

// prepareMonths sums up the months and limits their spread to what the sky can
// bring: both ways alike, so that the mean stays.
func (g *Generator) prepareMonths() {
	from := 0
	for i, days := range weather.MonthDays {
		if i == 1 {
			days += len(g.sky) - 365
		}
		m := monthSpan{from: from, to: from + days}
		for _, s := range g.sky[m.from:m.to] {
			m.outside, m.clear = m.outside+s.outside, m.clear+s.clear
		}
		g.aim(&m, &g.climate.Months[i])
		g.months = append(g.months, m)
		from = m.to
	}
}

// aim sets the target of a month. Where the climate has more light than a clear
// sky, on snow or by error, the clear sky of the month is made to bring it.
func (g *Generator) aim(m *monthSpan, month *weather.Month) {
	const mostOften = 0.97 // of a clear sky, the mean of a month
	if m.outside <= 0 {
		return
	}
	m.mean = month.GHI * float64(m.to-m.from) / m.outside
	if m.outside < darkness*float64(m.to-m.from) {
		m.mean = min(m.mean, m.clear/m.outside)
		return
	}
	if most := mostOften * m.clear / m.outside; m.mean > most {
		g.brighten(m, m.mean/most)
	}
	m.spread = max(0, min(month.SpreadGHI, (mostOften*m.clear/m.outside/m.mean-1)/2, 0.5))
}

// brighten raises the clear sky of a month.
func (g *Generator) brighten(m *monthSpan, factor float64) {
	m.clear *= factor
	for d := m.from; d < m.to; d++ {
		s := &g.sky[d]
		s.clear *= factor
		for i := range s.hours {
			s.hours[i].clear *= factor
		}
	}
}

func (g *Generator) basis(seed uint64, number int) weather.Basis {
	b := g.climate.Basis
	b.Kind, b.Seed, b.Number = weather.Synthetic, seed, number
	b.Sources = append(b.Sources[:len(b.Sources):len(b.Sources)],
		source.Aguiar1988, source.Aguiar1992, source.Erbs1982, source.Erbs1983, source.TemperatureRule, source.SpreadRule, source.CalmWind)
	b.Notes = append(b.Notes[:len(b.Notes):len(b.Notes)], "hours drawn from monthly means, not measured", "wind assumed to be a steady 3 m/s")
	return b
}
