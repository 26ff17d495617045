package life

import (
	"math"

	"ampstead/physics/ageing"
	"ampstead/travel"
)

// milestone is the year on the road at one capacity.
type milestone struct {
	share  float64 // of rated
	ohms   float64 // over the resistance at the start
	res    *travel.Result
	stress []ageing.Stress
	gaveWh float64
	least  float64 // fewest hours short at this and every smaller capacity
}

func (m *milestone) arrive(res *travel.Result) {
	m.res, m.stress = res, res.Stress()
	for _, month := range res.Months {
		m.gaveWh += month.Stress.GaveWh
	}
}

// road is the years on the road from the largest capacity to the smallest.
type road []*milestone

// rungs are capacities a step apart from the most down to the first at or below
// the least; one of them is now.
func rungs(now, most, least, step float64) []float64 {
	var list []float64
	k := -math.Ceil(math.Log(now/most)/math.Log(1-step) - 1e-9)
	for share := math.Inf(1); share > least; k++ {
		share = now * math.Pow(1-step, k)
		list = append(list, share)
	}
	return list
}

// settle finds what less capacity is sure to cost. Hours short jump about by some
// as thresholds fall on other days; where a smaller bank does as well, the larger
// one is not short for want of capacity.
func (d road) settle() {
	least := math.Inf(1)
	for k := len(d) - 1; k >= 0; k-- {
		least = min(least, d[k].res.Year.UnservedH)
		d[k].least = least
	}
}

// year is the year on the road at any capacity.
type year struct {
	share        float64
	above, below *milestone
	weight       float64 // of below
}

// at finds the milestones around a capacity; outside them the nearest holds.
func (d road) at(share float64) *year {
	last := d[len(d)-1]
	if share >= d[0].share {
		return &year{share: share, above: d[0], below: d[0]}
	}
	for k := 1; k < len(d); k++ {
		if share >= d[k].share {
			weight := math.Log(share/d[k-1].share) / math.Log(d[k].share/d[k-1].share)
			return &year{share: share, above: d[k-1], below: d[k], weight: weight}
		}
	}
	return &year{share: share, above: last, below: last}
}

// mix goes straight between the two milestones.
func (y *year) mix(of func(*milestone) float64) float64 {
	a, b := of(y.above), of(y.below)
	return a + y.weight*(b-a)
}

func (y *year) short() float64 {
	return y.mix(func(m *milestone) float64 { return m.res.Year.UnservedH })
}
func (y *year) least() float64 { return y.mix(func(m *milestone) float64 { return m.least }) }
func (y *year) socMin() float64 {
	return y.mix(func(m *milestone) float64 { return m.res.Year.SoCMin })
}
func (y *year) cycles() float64 {
	return y.mix(func(m *milestone) float64 { return m.res.Year.FullCycles })
}
func (y *year) served() float64 {
	return y.mix(func(m *milestone) float64 { return m.res.Year.Served })
}
func (y *year) gaveWh() float64 { return y.mix(func(m *milestone) float64 { return m.gaveWh }) }

// stress is that of the nearer milestone, brought to the capacity of the year.
func (y *year) stress() []ageing.Stress {
	m := y.above
	if y.weight > 0.5 {
		m = y.below
	}
	return scaled(m.stress, m.share/y.share)
}

// scaled is a year of stress for a bank that has less to give by a factor: its
// depths and rates are the more. Throughput stays, over the rated capacity.
func scaled(list []ageing.Stress, by float64) []ageing.Stress {
	if by == 1 {
		return list
	}
	out := make([]ageing.Stress, len(list))
	for k, s := range list {
		s.Depth = min(1, s.Depth*by)
		s.CRate *= by
		s.Cycles = deeper(s.Cycles, by)
		out[k] = s
	}
	return out
}

// deeper are cycles about the same means.
func deeper(list []ageing.Cycle, by float64) []ageing.Cycle {
	out := make([]ageing.Cycle, len(list))
	for k, c := range list {
		c.Range = min(1, c.Range*by)
		c.From, c.To = c.Mean+c.Range/2, c.Mean-c.Range/2
		out[k] = c
	}
	return out
}
