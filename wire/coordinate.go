package wire

import (
	"fmt"

	"ampstead/physics/protect"
)

// coordinate compares every fuse with the one before it.
func (s *study) coordinate() {
	strings := s.stringFuse()
	for _, f := range s.fuses {
		inner := s.innerOf(f, strings)
		if inner == nil || f.run.side > 0 {
			continue
		}
		s.res.Coordination = append(s.res.Coordination, pair(inner, f))
	}
}

// stringFuse is the fuse of each module, nil without one.
func (s *study) stringFuse() *fused {
	for _, f := range s.fuses {
		if f.run.From == KindModules {
			return f
		}
	}
	return nil
}

// innerOf is the next fuse towards the modules.
func (s *study) innerOf(f, strings *fused) *fused {
	for at := f.run.parent; at != nil; at = at.parent {
		if at.guard != nil {
			return at.guard
		}
	}
	if f.run.From == KindModules || s.adrift(f.run) {
		return nil
	}
	return strings
}

// pair compares two fuses in series. Fuses side by side share the current, so
// their ratings add.
func pair(inner, outer *fused) Pair {
	p := Pair{Proposed: inner.Proposed || outer.Proposed, Inner: inner.Name, Outer: outer.Name, Ratio: inner.RatingA * float64(inner.Count) / outer.RatingA}
	in, known := protect.ClassNamed(inner.Class)
	out, knownToo := protect.ClassNamed(outer.Class)
	switch {
	case !known || !knownToo || in.Name != out.Name || !in.Limiting:
		p.Why = "no published rule speaks of these two classes together: either may clear first"
	case p.Ratio >= protect.Coordinated:
		p.NeedsRatio, p.OuterFirst = protect.Coordinated, true
		p.Why = fmt.Sprintf("both %s, ratio %.2g: the outer one clears alone, as makers' tables have it", in.Name, p.Ratio)
	default:
		p.NeedsRatio = protect.Coordinated
		p.Why = fmt.Sprintf("both %s, ratio %.2g where %g is needed: a dead short may open both", in.Name, p.Ratio, protect.Coordinated)
	}
	return p
}
