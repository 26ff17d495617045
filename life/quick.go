package life

import (
	"ampstead/physics/ageing"
	"ampstead/physics/cell"
	"ampstead/travel"
)

// Years estimates the years to the end by capacity from one year on the road
// alone: it repeats itself, its depths and rates growing as the capacity fades.
// now is the capacity that year was run with, share of rated; 0 is new. The
// Options give the past, the model, its multiplier, the end and the horizon;
// what is not reached within it counts as the horizon. Errors: *Unknown.
func Years(c *cell.Cell, res *travel.Result, now float64, o Options) (Band, error) {
	m, err := modelFor(c, o.Model)
	if err != nil {
		return Band{}, err
	}
	if o.EndShare <= 0 {
		o.EndShare = endOf(c)
	}
	if o.Years <= 0 {
		o.Years = horizon
	}
	if now <= 0 {
		now = 1
	}
	q := quick{model: m, past: o.past(), year: res.Stress(), share: now, end: o.EndShare, most: o.Years}
	spread := band(m, o.Multiplier, o.Spread)
	var b Band
	b.Low, _ = q.years(spread.High)
	b.Middle, _ = q.years(spread.Middle)
	b.High, _ = q.years(spread.Low)
	return b, nil
}

// quick is a year that repeats itself.
type quick struct {
	model *ageing.Model
	past  ageing.Past
	year  []ageing.Stress
	share float64 // capacity it was run with, of rated
	end   float64
	most  int
}

func (q *quick) years(multiplier float64) (years float64, reached bool) {
	b := start(q.model.Scaled(multiplier), q.past)
	for n := 0; n < q.most; n++ {
		before := b.share()
		if before <= q.end {
			return 0, true
		}
		for _, s := range scaled(q.year, q.share/before) {
			b.Add(s)
		}
		if after := b.share(); after <= q.end {
			return float64(n) + (before-q.end)/(before-after), true
		}
	}
	return float64(q.most), false
}
