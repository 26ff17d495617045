package synthetic

import (
	"math"
	"math/rand/v2"

	"ampstead/weather"
)

// How days of temperature follow each other and the sun; docs/weather.md compares
// what comes of it with station months.
const (
	persistence = 0.75 // of the daily mean; 0.7 where it is measured inside a month
	followSea   = 0.40 // share by which the daily range follows the day's sun at the coast,
	followLand  = 0.85 // and inland
	looseSea    = 0.38 // spread of the daily range beside that, as a fraction
	looseLand   = 0.25

	narrowest, widest = 0.1, 2.2 // a day's range over its mean: no weather goes further, ours
)

// inMonth is the spread measured inside a month of 30 days over the true one of
// a series of that persistence.
var inMonth = math.Sqrt(1 - (1+persistence)/(1-persistence)/30)

// course is the mean course of temperature through a day over its range, hour by
// hour from the middle of the first (Erbs, Klein & Beckman 1983).
var course = dayCourse()

func dayCourse() (c [24]float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range c {
		t := 2 * math.Pi * (float64(i) + 0.5 - 1) / 24
		c[i] = 0.4632*math.Cos(t-3.805) + 0.0984*math.Cos(2*t-0.360) + 0.0168*math.Cos(3*t-0.822) + 0.0138*math.Cos(4*t-3.513)
		low, high = min(low, c[i]), max(high, c[i])
	}
	for i := range c {
		c[i] /= high - low
	}
	return c
}

// fillTemperature makes the temperature of the hours of days first to last,
// counting from 0. light is the irradiation of each day of the year.
func (g *Generator) fillTemperature(seed uint64, number int, light []float64, first, last int, h *weather.Hours) {
	means, ranges := g.drawTemperature(seed, number, light)
	noons := sharpen(means)
	for d := first; d <= last; d++ {
		before, after := max(d-1, 0), min(d+1, len(noons)-1)
		for i := range 24 {
			other, f := before, 0.5-(float64(i)+0.5)/24 // share of the way to the noon of the other day
			if f < 0 {
				other, f = after, -f
			}
			t := noons[d] + f*(noons[other]-noons[d])
			span := ranges[d] + f*(ranges[other]-ranges[d])
			h.TempC[24*(d-first)+i] = t + span*course[i]
		}
	}
}

// drawTemperature draws the mean and the range of every day. Every second year
// mirrors the one before it, so that two together have the climate's mean.
func (g *Generator) drawTemperature(seed uint64, number int, light []float64) (means, ranges []float64) {
	var draw rand.PCG
	draw.Seed(seed, stream(temperatures, number/2))
	sign := 1 - 2*float64(number%2)
	noise := math.Sqrt(1 - persistence*persistence)
	x := sign * normal(unit(&draw))
	means, ranges = make([]float64, len(light)), make([]float64, len(light))
	for d := range light {
		s := g.season[d]
		x = persistence*x + noise*sign*normal(unit(&draw))
		means[d] = s.mean + s.spread*x
		ranges[d] = g.dayRange(d, light[d], sign*normal(unit(&draw)))
	}
	return means, ranges
}

// dayRange returns the course's range on a day of some irradiation: clear days
// are warmer at noon and colder at night.
func (g *Generator) dayRange(d int, light, z float64) float64 {
	s := g.season[d]
	sunny := 0.0
	if s.light > darkness {
		sunny = light/s.light - 1
	}
	inland := g.climate.Inland
	follow := followSea + (followLand-followSea)*inland
	loose := looseSea + (looseLand-looseSea)*inland
	return s.span * min(max(1+follow*sunny+loose*z, narrowest), widest)
}

// sharpen returns the noons whose straight joins have the given means over each
// day: a join alone would dull them.
func sharpen(means []float64) []float64 {
	noons := append([]float64(nil), means...)
	for range 3 {
		last := noons[0]
		for d := range noons {
			here, next := noons[d], noons[min(d+1, len(noons)-1)]
			noons[d] += means[d] - (last+6*here+next)/8
			last = here
		}
	}
	return noons
}
