package choose

import (
	"fmt"
	"strings"

	q "ampstead/quantity"
)

// bestWords are what the best in each goal is called.
var bestWords = [goals]string{"cheapest", "lightest", "fewest hours short", "longest life"}

// why says what a design is best at among those shown: outright, or among those
// that are as good in one, two or three other goals. Of several truths the one
// about the most designs is told.
func (s *searcher) why(p *point, list []*point) string {
	var outright []string
	for k := range goals {
		if bestAmong(p, list, k, 0) == len(list) && cheapestLike(p, list, k) {
			outright = append(outright, bestWords[k])
		}
	}
	if len(outright) > 0 {
		return strings.Join(outright, ", ")
	}
	for size := 1; size < goals; size++ {
		goal, held, most := 0, 0, 0
		for k := range goals {
			for set := range 1 << goals {
				if bits(set) != size || set&(1<<k) != 0 {
					continue
				}
				if n := bestAmong(p, list, k, set); n > most {
					goal, held, most = k, set, n
				}
			}
		}
		if most > 1 {
			return fmt.Sprintf("%s of the %d with %s", bestWords[goal], most, s.held(p, held))
		}
	}
	return "a way of its own: none of the others is as good in three of price, mass, hours short and life"
}

// cheapestLike reports whether no design as good in a goal costs less.
func cheapestLike(p *point, list []*point, goal int) bool {
	for _, o := range list {
		if o.price < p.price && o.goals()[goal] == p.goals()[goal] {
			return false
		}
	}
	return true
}

// bestAmong counts the designs that are as good as p in the goals of set, p
// among them; 0 when one of these is better in goal.
func bestAmong(p *point, list []*point, goal, set int) int {
	mine, n := p.goals(), 0
	for _, o := range list {
		other := o.goals()
		if !asGood(other, mine, set) {
			continue
		}
		if n++; other[goal] < mine[goal] {
			return 0
		}
	}
	return n
}

func asGood(a, b [goals]float64, set int) bool {
	for k := range goals {
		if set&(1<<k) != 0 && a[k] > b[k] {
			return false
		}
	}
	return true
}

func bits(set int) int {
	n := 0
	for ; set > 0; set &= set - 1 {
		n++
	}
	return n
}

// held says how good a design is in some goals.
func (s *searcher) held(p *point, set int) string {
	sys, _ := q.ParseSystem(s.space.rig.About.Units)
	texts := [goals]string{
		fmt.Sprintf("at most %.0f %s", p.price, s.tariff.currency), "at most " + q.Kilograms.Text(p.kg, sys),
		hoursShort(p.Hours), fmt.Sprintf("at least %.1f years", p.Years.Middle),
	}
	var list []string
	for k := range goals {
		if set&(1<<k) != 0 {
			list = append(list, texts[k])
		}
	}
	return strings.Join(list, " and ")
}

func hoursShort(h float64) string {
	if h == 0 {
		return "no hour short"
	}
	return fmt.Sprintf("at most %.4g hours short", h)
}

// limitsText lists the constraints.
func limitsText(o Options, currency string) []string {
	list := []string{}
	add := func(v float64, format string, args ...any) {
		if v > 0 {
			list = append(list, fmt.Sprintf(format, args...))
		}
	}
	add(o.Budget, "at most %g %s", o.Budget, currency)
	add(o.Mass, "at most %g kg", o.Mass)
	add(o.ShortHours, "at most %g hours short a year", o.ShortHours)
	add(o.Life, "at least %g years of life", o.Life)
	return list
}
