package drill

import (
	"context"
	"slices"
)

// harmRun is a run that reaches harm: of a pair, of a single fault (b is -1), or
// of a scene with nothing wrong (both are -1).
type harmRun struct {
	a, b, scene int
	out         Outcome
}

// faults are the numbers to play it again with, as another play has them.
func (h harmRun) faults(number func(int) int) []int {
	var list []int
	for _, f := range []int{h.a, h.b} {
		if f >= 0 {
			list = append(list, number(f))
		}
	}
	return list
}

// partners lists the pairs of faults. Two faults of which one undoes the other,
// such as a contact that is welded and open, cannot be there at once: they make
// no pair and are not counted. No other pair is left out, for a fault that
// changes nothing by itself may be the protection another one needs.
func (s *study) partners() [][2]int {
	var list [][2]int
	for a := range s.faults {
		for b := a + 1; b < len(s.faults); b++ {
			if !s.exclude(a, b) {
				list = append(list, [2]int{a, b})
			}
		}
	}
	return list
}

// pairRuns is how many runs the pairs take.
func (s *study) pairRuns() int {
	if s.o.NoPairs {
		return 0
	}
	return len(s.partners()) * len(s.scenes)
}

// pairs plays every pair in every scene.
func (s *study) pairs(ctx context.Context) error {
	list, scenes := s.partners(), len(s.scenes)
	runs := make([]Outcome, len(list)*scenes)
	err := s.pool.each(ctx, len(runs), func(k int) (err error) {
		p := list[k/scenes]
		runs[k], err = s.run(k%scenes, p[0], p[1])
		return err
	})
	if err != nil {
		return err
	}
	s.out.Pairs.Runs, s.out.Pairs.Faults = len(runs), len(list)
	for k, o := range runs {
		s.count(o.Outcome)
		p := list[k/scenes]
		if o.Outcome == Harm && s.discovers(p[0], p[1], k%scenes) {
			s.harm = append(s.harm, harmRun{p[0], p[1], k % scenes, o})
		}
	}
	s.out.Pairs.Groups = s.groups()
	return nil
}

func (s *study) count(v Verdict) {
	switch v {
	case Harm:
		s.out.Pairs.Harm++
	case Near:
		s.out.Pairs.Near++
	case Caught:
		s.out.Pairs.Caught++
	case Nuisance:
		s.out.Pairs.Nuisance++
	}
}

// discovers reports whether it takes both faults to reach harm in a scene. Where
// one is enough, or none, the pair is counted and found under that.
func (s *study) discovers(a, b, scene int) bool {
	return s.base[scene].Outcome != Harm && s.single[a][scene].Outcome != Harm && s.single[b][scene].Outcome != Harm
}

// opposites are kinds of faults of one part that undo each other.
var opposites = [][2]string{{"welded contact", "open contact"}, {"cold", "heat"}}

// exclude reports whether two faults cannot be there at once: both of one part,
// and of one kind or of opposite kinds.
func (s *study) exclude(a, b int) bool {
	x, y := s.faults[a], s.faults[b]
	if x.Device != y.Device {
		return false
	}
	return x.Kind == y.Kind || slices.ContainsFunc(opposites, func(o [2]string) bool {
		return o == [2]string{x.Kind, y.Kind} || o == [2]string{y.Kind, x.Kind}
	})
}
