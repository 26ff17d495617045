package drill

import (
	"context"
	"slices"
)

// need is a set of runs that one addition is to cover: those of a single fault or
// of a group of pairs.
type need struct {
	key    groupKey // of a group; harm is "" for a single fault
	single int      // fault, or -1
	runs   []int    // in the order of the runs that reach harm
}

// needs are the single faults, then the groups, that reach harm.
func (s *study) needs() []need {
	var list []need
	at, number := map[int]int{}, map[[3]int]int{}
	for k, h := range s.lost {
		number[h.key()] = k
		if h.b >= 0 {
			continue
		}
		n, seen := at[h.a]
		if !seen {
			n = len(list)
			at[h.a] = n
			list = append(list, need{single: h.a})
		}
		list[n].runs = append(list[n].runs, k)
	}
	for _, key := range sortedKeys(s.grouped) {
		list = append(list, need{key: key, single: -1, runs: numbers(s.grouped[key], number)})
	}
	return list
}

// numbers finds runs among those that reach harm.
func numbers(runs []harmRun, at map[[3]int]int) []int {
	list := make([]int, len(runs))
	for k, h := range runs {
		list[k] = at[h.key()]
	}
	return list
}

func (h *harmRun) key() [3]int { return [3]int{h.a, h.b, h.scene} }

// coversAll reports whether a trial saves all of some runs.
func (t *trial) coversAll(runs []int) bool {
	return !slices.ContainsFunc(runs, func(k int) bool { return !t.saves[k] })
}

func (t *trial) coversAny(runs []int) bool {
	return slices.ContainsFunc(runs, func(k int) bool { return t.saves[k] })
}

// least is the first addition of the catalogue that covers all of some runs, and
// brings no new harm if there is a choice.
func (s *study) least(runs []int) *trial {
	var best *trial
	for _, t := range s.trials {
		if !t.coversAll(runs) {
			continue
		}
		if t.out.Creates == 0 {
			return t
		}
		if best == nil {
			best = t
		}
	}
	return best
}

// mostTwos bounds how many additions are joined with another for one need.
const mostTwos = 4

// tryTwo joins two additions for what none covers alone.
func (s *study) tryTwo(ctx context.Context) error {
	ones := slices.Clone(s.trials)
	tried := map[[2]*trial]bool{}
	for _, n := range s.needs() {
		for _, two := range twos(ones, n.runs) {
			if tried[two] || s.least(n.runs) != nil {
				continue
			}
			tried[two] = true
			joined, err := s.join(two[0].addition, two[1].addition)
			if err == nil {
				err = s.try(ctx, joined)
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// twos are the additions worth joining for some runs: what one does not save the
// other does.
func twos(ones []*trial, runs []int) [][2]*trial {
	var partly []*trial
	for _, t := range ones {
		if t.coversAny(runs) && len(partly) < mostTwos {
			partly = append(partly, t)
		}
	}
	var list [][2]*trial
	for i, a := range partly {
		for _, b := range partly[i+1:] {
			if togetherCover(a, b, runs) {
				list = append(list, [2]*trial{a, b})
			}
		}
	}
	return list
}

// join is one addition made after another, nil when that leaves it no use. Made
// anew on the rig with the first, it takes other names.
func (s *study) join(a, b *addition) (*addition, error) {
	r, err := a.with(s.rig)
	if err != nil {
		return nil, err
	}
	two := b.entry.on(r, s.fit)
	if two == nil {
		return nil, nil
	}
	two.after = a
	two.name, two.about = a.name+", and "+two.name, a.about+"; "+two.about
	for _, harm := range a.against {
		if !slices.Contains(two.against, harm) {
			two.against = append(slices.Clone(two.against), harm)
		}
	}
	return two, nil
}

// togetherCover reports whether each run is saved by one or the other.
func togetherCover(a, b *trial, runs []int) bool {
	return !slices.ContainsFunc(runs, func(k int) bool { return !a.saves[k] && !b.saves[k] })
}

// assign writes down which addition covers what.
func (s *study) assign() {
	s.cover = map[[2]int]string{}
	groups := 0
	for _, n := range s.needs() {
		name := ""
		if t := s.least(n.runs); t != nil {
			name = t.name
		}
		if n.key.harm == "" {
			s.cover[[2]int{n.single, -1}] = name
		} else {
			s.out.Pairs.Groups[groups].Addition = name
			groups++
		}
		s.causes(n)
	}
	s.coverPairs()
	for _, t := range s.trials {
		s.out.Additions = append(s.out.Additions, t.out)
	}
	slices.SortStableFunc(s.out.Additions, func(a, b Addition) int { return b.Covers - a.Covers })
}

// coverPairs finds the least addition for each pair by itself.
func (s *study) coverPairs() {
	by := map[[2]int][]int{}
	for k, h := range s.lost {
		if h.b >= 0 {
			by[[2]int{h.a, h.b}] = append(by[[2]int{h.a, h.b}], k)
		}
	}
	for pair, runs := range by {
		if t := s.least(runs); t != nil {
			s.cover[pair] = t.name
		}
	}
}

// causes notes with each addition that it covers a need as a whole.
func (s *study) causes(n need) {
	text := "a scene with nothing wrong"
	switch {
	case n.key.harm != "":
		text = s.cause(n.key, s.grouped[n.key])
	case n.single >= 0:
		text = s.faults[n.single].Name
	}
	for _, t := range s.trials {
		if t.coversAll(n.runs) {
			t.out.Causes = append(t.out.Causes, text)
		}
	}
}
