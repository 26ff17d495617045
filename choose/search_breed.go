package choose

import "math"

// spread makes n designs all over: every battery in the rig as it stands, then
// latin squares, in which each thing varied takes each of its levels equally
// often.
func (s *searcher) spread(n int) []genes {
	var list []genes
	for k := range s.space.base {
		if len(list) < n {
			list = s.add(list, s.space.today(k))
		}
	}
	rest := n - len(list)
	levels := s.space.levels()
	var columns [varied][]int
	for k := range columns {
		columns[k] = s.draw.Perm(rest)
	}
	for i := range rest {
		var g genes
		for k := range g {
			g[k] = int((float64(columns[k][i]) + s.draw.Float64()) / float64(rest) * float64(levels[k]))
		}
		list = s.fresh(list, g)
	}
	return list
}

// add appends a design that was not thought of before.
func (s *searcher) add(list []genes, g genes) []genes {
	if g = s.space.plain(g); !s.seen[g] {
		s.seen[g] = true
		list = append(list, g)
	}
	return list
}

// tries bounds how long something new is looked for before it is left.
const tries = 200

// fresh appends a design, changed until it is a new one; first step by step, then
// to anything. Where nothing new is left it appends none.
func (s *searcher) fresh(list []genes, g genes) []genes {
	for n := range tries {
		if more := s.add(list, g); len(more) > len(list) {
			return more
		}
		if g = s.changed(g); n > tries/4 {
			g = s.any()
		}
	}
	return list
}

func (s *searcher) any() (g genes) {
	for k, n := range s.space.levels() {
		g[k] = s.draw.IntN(n)
	}
	return g
}

// changed moves one thing, and others now and then, to a level nearby; the
// battery to any other.
func (s *searcher) changed(g genes) genes {
	levels, sure := s.space.levels(), s.draw.IntN(varied)
	for k := range g {
		if k != sure && s.draw.IntN(varied) > 0 || levels[k] < 2 {
			continue
		}
		if k == whichBattery {
			g[k] = s.draw.IntN(levels[k])
			continue
		}
		step := 1 + s.draw.IntN(2)
		if s.draw.IntN(2) == 0 {
			step = -step
		}
		g[k] = max(0, min(levels[k]-1, g[k]+step))
	}
	return g
}

// breed makes n designs from the best so far: the better of two drawn twice, each
// thing from one or the other, then changed.
func (s *searcher) breed(n int) []genes {
	var list []genes
	order := ranked(s.list)
	pick := func() genes {
		return s.list[order[min(s.draw.IntN(len(order)), s.draw.IntN(len(order)))]].genes
	}
	for range max(0, n) {
		child, other := pick(), pick()
		for k := range child {
			if s.draw.IntN(2) == 0 {
				child[k] = other[k]
			}
		}
		list = s.fresh(list, s.changed(child))
	}
	return list
}

// ranked lists the designs best first: by how many others are better in all, and
// where equal, the lonelier one.
func ranked(list []*point) []int {
	n := len(list)
	beaten, lonely := make([]int, n), make([]float64, n)
	span := spanOf(list)
	for i, p := range list {
		lonely[i] = math.Inf(1)
		for j, o := range list {
			if i == j {
				continue
			}
			if o.beats(p) {
				beaten[i]++
			}
			lonely[i] = min(lonely[i], span.apart(p, o))
		}
	}
	return sortedBy(n, func(i, j int) bool {
		if beaten[i] != beaten[j] {
			return beaten[i] < beaten[j]
		}
		return lonely[i] > lonely[j]
	})
}
