package travel

import (
	"math"
	"slices"
)

// limits compares every change with the same years as they are, best first.
func (s *study) limits() []Limit {
	list := []Limit{}
	for i := range s.tried {
		list = append(list, limitOf(&s.tried[i], s.runs[i], s.years))
	}
	slices.SortStableFunc(list, func(a, b Limit) int { return better(&a, &b) })
	return list
}

func limitOf(v *variant, runs, as []*yearTally) Limit {
	l := Limit{Change: v.change, Why: v.why, Years: len(runs)}
	n := float64(len(runs))
	low, was := 1.0, 1.0
	for k, run := range runs {
		a, b := &run.Year, &as[k].Year
		l.UnservedHours += (a.UnservedH - b.UnservedH) / n
		l.Unserved += (a.Unserved - b.Unserved) / n
		l.SunCaught += (a.SunCaught - b.SunCaught) / n
		l.FrostLockedH += (a.FrostLockedH - b.FrostLockedH) / n
		l.LostFrost += (a.LostFrost - b.LostFrost) / n
		l.Heater += (a.Heater - b.Heater) / n
		low, was = min(low, a.SoCMin), min(was, b.SoCMin)
	}
	l.SoCMin = low - was
	return l
}

// better sorts by what a change brings: less energy not served, then fewer hours
// of it, then a bank that is emptied less, then less lost to frost. Small
// differences count as none.
func better(a, b *Limit) int {
	for _, c := range []struct{ a, b, grain float64 }{
		{a.Unserved, b.Unserved, 100}, {a.UnservedHours, b.UnservedHours, 1},
		{-a.SoCMin, -b.SoCMin, 0.005}, {a.LostFrost, b.LostFrost, 100},
	} {
		x, y := math.Round(c.a/c.grain), math.Round(c.b/c.grain)
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
	}
	return 0
}
