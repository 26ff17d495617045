package synthetic

import (
	"math"
	"math/rand/v2"
)

// monthSpan are the days of one month, counting from 0, and what they can bring.
type monthSpan struct {
	from, to       int
	outside, clear float64 // Wh/m², all days together
	mean           float64 // clearness index of the climate
	spread         float64 // of the month from year to year, as a fraction
}

// tries is how often a month is drawn at most for a mean closely at its
// target; the best is scaled to it.
const (
	tries   = 60
	closely = 0.01
)

// drawDays draws the irradiation of every day of a year in Wh/m².
func (g *Generator) drawDays(seed uint64, number int) []float64 {
	light := make([]float64, len(g.sky))
	var draw rand.PCG
	draw.Seed(seed, stream(days, number))
	today := g.months[0].mean
	for i := range g.months {
		m := &g.months[i]
		target := m.mean * (1 + m.spread*anomaly(seed, i, number))
		today = g.drawMonth(m, target, today, &draw, light[m.from:m.to])
	}
	return light
}

// drawMonth draws the days of one month and returns the clearness index of the
// last.
func (g *Generator) drawMonth(m *monthSpan, target, today float64, draw *rand.PCG, light []float64) float64 {
	if m.outside < float64(len(light))*darkness {
		copyOutside(g.sky[m.from:m.to], target, light)
		return today
	}
	c := newChain(classOf(target))
	var kt, best [31]float64
	nearest := math.Inf(1)
	for range tries {
		sum := g.walk(m, &c, today, draw, kt[:len(light)])
		if off := math.Abs(sum/m.outside - target); off < nearest {
			nearest, best = off, kt
		}
		if nearest < closely*target {
			break
		}
	}
	g.hit(m, target, best[:len(light)], light)
	return best[len(light)-1]
}

// darkness is the irradiation outside the air in Wh/m² below which a day has no
// weather worth drawing.
const darkness = 50

func copyOutside(sky []daySky, kt float64, light []float64) {
	for d := range light {
		light[d] = min(kt*sky[d].outside, sky[d].clear)
	}
}

// walk draws the clearness of each day, not above that of a clear sky, and
// returns the irradiation of all in Wh/m².
func (g *Generator) walk(m *monthSpan, c *chain, today float64, draw *rand.PCG, kt []float64) float64 {
	sum := 0.0
	for d := range kt {
		today = c.next(today, draw)
		sky := &g.sky[m.from+d]
		kt[d] = today
		sum += min(today*sky.outside, sky.clear)
	}
	return sum
}

// hit turns clearness into light and scales the month to its target, leaving no
// day brighter than a clear one.
func (g *Generator) hit(m *monthSpan, target float64, kt, light []float64) {
	want := target * m.outside
	for d := range light {
		sky := &g.sky[m.from+d]
		light[d] = min(kt[d]*sky.outside, sky.clear)
	}
	scale(light, want, func(d int) float64 { return g.sky[m.from+d].clear })
}

// scale multiplies values to reach a sum, none above its limit.
func scale(values []float64, want float64, limit func(int) float64) {
	for range 12 {
		full, rest := 0.0, 0.0
		for i, v := range values {
			if v >= limit(i) {
				full += v
			} else {
				rest += v
			}
		}
		if math.Abs(full+rest-want) <= 1e-9*want {
			return
		}
		if want <= full || rest == 0 {
			full, rest = 0, full+rest // everything shrinks
		}
		factor := (want - full) / rest
		for i, v := range values {
			if full == 0 || v < limit(i) {
				values[i] = min(v*factor, limit(i))
			}
		}
	}
}

// anomaly says how far a month of one year is from the climate's, in standard
// deviations. Twenty successive years take the twenty twentieths of the normal
// distribution in random order, so that their mean is the climate's.
func anomaly(seed uint64, month, number int) float64 {
	block, place := number/block, number%block
	var draw rand.PCG
	draw.Seed(seed, stream(years, block)+uint64(month))
	order := [20]int{}
	for i := range order {
		j := int(unit(&draw) * float64(i+1))
		order[i] = order[j]
		order[j] = i
	}
	return normal((float64(order[place]) + 0.5) / float64(len(order)))
}

// block is how many successive years have the climate's mean together.
const block = 20

// What a stream of random numbers is for.
const (
	years = iota + 1
	days
	hours
	temperatures
)

// stream tells apart the random numbers of one seed.
func stream(what, number int) uint64 { return uint64(what)<<56 | uint64(number)<<16 }

// dayDraw starts the random numbers of the hours of one day, so that a part of a
// year is the same as in the whole.
func dayDraw(seed uint64, number, day int) (draw rand.PCG) {
	draw.Seed(seed, stream(hours, number)+uint64(day))
	return draw
}
