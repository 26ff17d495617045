package life

import (
	"fmt"
	"time"

	"ampstead/physics/ageing"
)

// result puts together what the three banks came to: low is the one that loses
// the most.
func (s *study) result(middle, low, high *path, hours float64) *Result {
	bandOf := func(of func(*path) float64) Band { return Band{of(low), of(middle), of(high)} }
	res := &Result{
		Model: s.model.Name, Title: s.model.Title, Silent: s.model.Silent,
		Start: middle.share[0], StartRange: bandOf(func(p *path) float64 { return p.share[0] }),
		Basis: middle.bank.Basis(), EndShare: s.o.EndShare, EndHours: hours,
		ByCapacity:  bandOf(func(p *path) float64 { return p.capacityAt }),
		ByFunction:  bandOf(func(p *path) float64 { return p.functionAt }),
		DeliveredWh: bandOf((*path).delivered),
		Outside:     middle.bank.Outside(), Second: s.opinions(), FirstShort: firstShort(middle),
		Beyond: beyond(low, middle, high), Years: []Year{}, Figures: []string{"ageing", "cycle-count"},
	}
	low.extend(len(middle.share))
	high.extend(len(middle.share))
	for n := range len(middle.share) - 1 {
		res.Years = append(res.Years, yearOf(n, middle, low, high))
	}
	return res
}

// yearOf is the year from age n on.
func yearOf(n int, middle, low, high *path) Year {
	y := middle.years[n]
	return Year{
		Age: n + 1, Low: low.share[n+1], Middle: middle.share[n+1], High: high.share[n+1], Resistance: middle.ohms[n+1],
		ShortHours: y.short(), SoCMin: y.socMin(), FullCycles: y.cycles(), ServedWh: y.served(), GaveWh: y.gaveWh(),
	}
}

// beyond says which ends were not reached, and why not.
func beyond(low, middle, high *path) []string {
	list := []string{}
	for k, p := range []*path{low, middle, high} {
		name := [3]string{"low", "middle", "high"}[k]
		why := fmt.Sprintf("not within %d years", len(p.share)-1)
		if p.worn {
			why = fmt.Sprintf("not in the %d years until half the rated capacity is left; not followed further", len(p.share)-1)
		}
		if !p.capacityEnd {
			list = append(list, fmt.Sprintf("by capacity, %s: %s", name, why))
		}
		if !p.functionEnd {
			list = append(list, fmt.Sprintf("by function, %s: %s", name, why))
		}
	}
	return list
}

// firstShort is the month that suffers most in the first year that is short,
// against the first year of all.
func firstShort(p *path) string {
	if !p.functionEnd {
		return ""
	}
	then, now := p.years[len(p.years)-1].below.res, p.years[0].above.res
	worst, most := 0, 0.0
	for m := range then.Months {
		more := then.Months[m].UnservedH
		if now != then {
			more -= now.Months[m].UnservedH
		}
		if more > most {
			worst, most = m, more
		}
	}
	return fmt.Sprintf("%s of year %d", time.Month(worst+1), int(p.functionAt)+1)
}

// opinions are the other models' answers to the same use.
func (s *study) opinions() []Opinion {
	list := []Opinion{}
	for _, m := range ageing.For(s.res.Kind) {
		if m.Name != s.model.Name {
			list = append(list, s.opinion(m))
		}
	}
	return list
}

func (s *study) opinion(m *ageing.Model) Opinion {
	p := s.road.walk(start(m.Scaled(m.Band.Middle), s.o.past()), s.o.Years, s.o.EndShare, 0)
	note := m.Title + "; " + m.Covers
	if !p.capacityEnd {
		note += fmt.Sprintf("; not within %d years", len(p.share)-1)
	}
	return Opinion{Model: m.Name, ByCapacity: p.capacityAt, Note: note}
}
