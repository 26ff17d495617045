package choose

import (
	"math"
	"sort"
)

// goals are what a design is judged by, all to be small: price, mass, hours short
// a year, and years of life with the sign turned.
const (
	goalPrice = iota
	goalMass
	goalHours
	goalLife
	goals
)

func (p *point) goals() [goals]float64 {
	return [goals]float64{p.price, p.kg, p.Hours, -p.Years.Middle}
}

// beats reports whether p is at least as good in every goal and better in one. A
// design beyond the constraints is beaten by any that is less far beyond.
func (p *point) beats(o *point) bool {
	if p.over != o.over {
		return p.over < o.over
	}
	a, b := p.goals(), o.goals()
	better := false
	for k := range a {
		if a[k] > b[k] {
			return false
		}
		better = better || a[k] < b[k]
	}
	return better
}

// front are the designs within the constraints that no other one beats, cheapest
// first.
func front(list []*point) []*point {
	var out []*point
	for _, p := range list {
		if p.fits() && !beaten(p, list) {
			out = append(out, p)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].price < out[j].price })
	return out
}

func beaten(p *point, list []*point) bool {
	for _, o := range list {
		if o.beats(p) {
			return true
		}
	}
	return false
}

// span is how far the goals of some designs reach.
type span [goals]struct{ low, high float64 }

func spanOf(list []*point) span {
	var s span
	for k := range s {
		s[k].low, s[k].high = math.Inf(1), math.Inf(-1)
	}
	for _, p := range list {
		for k, v := range p.goals() {
			s[k].low, s[k].high = min(s[k].low, v), max(s[k].high, v)
		}
	}
	return s
}

// apart is how far two designs are from each other, each goal over its reach.
func (s *span) apart(p, o *point) float64 {
	a, b := p.goals(), o.goals()
	sum := 0.0
	for k := range a {
		if reach := s[k].high - s[k].low; reach > 0 {
			d := (a[k] - b[k]) / reach
			sum += d * d
		}
	}
	return math.Sqrt(sum)
}

// mostOnFront is how many designs of the front a person is shown.
const mostOnFront = 40

// thin keeps so many of a front: the best in each goal, then always the one
// farthest from all that are kept.
func thin(list []*point, most int) []*point {
	if len(list) <= most {
		return list
	}
	kept := make([]bool, len(list))
	gap := make([]float64, len(list))
	for i := range gap {
		gap[i] = math.Inf(1)
	}
	s := spanOf(list)
	keep := func(i int) {
		kept[i] = true
		for j := range list {
			gap[j] = min(gap[j], s.apart(list[i], list[j]))
		}
	}
	n := 0
	for k := range goals {
		if i := bestIn(list, k); !kept[i] {
			keep(i)
			n++
		}
	}
	for ; n < most; n++ {
		far := -1
		for i := range list {
			if !kept[i] && (far < 0 || gap[i] > gap[far]) {
				far = i
			}
		}
		keep(far)
	}
	var out []*point
	for i, p := range list {
		if kept[i] {
			out = append(out, p)
		}
	}
	return out
}

func bestIn(list []*point, goal int) int {
	best := 0
	for i, p := range list {
		if p.goals()[goal] < list[best].goals()[goal] {
			best = i
		}
	}
	return best
}

// sortedBy lists the numbers to n in an order; equal ones stay.
func sortedBy(n int, less func(i, j int) bool) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return less(order[a], order[b]) })
	return order
}
