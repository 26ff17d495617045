package keep

import (
	"fmt"
	"math"
)

// jumpOf describes a step.
func (s *study) jumpOf(d drawn) *Jump {
	if d.shape.bend != jump && d.shape.bend != loss {
		return nil
	}
	value, err := d.broken()
	j := &Jump{At: day(s.at(d.at)), Ah: value, Err: err}
	if d.shape.bend == loss {
		before, after := s.plant.sized(d.beta[d.layout.charge]*counts(d.shape.charge)), s.plant.sized(d.goes())
		j.Ah, j.Err = after-before, err*after*after/(s.plant.bankAh*s.plant.bankAh)
	}
	j.Like = s.like(j, d.shape.bend)
	return j
}

// like says what a step looks like.
func (s *study) like(j *Jump, b bend) string {
	one := s.plant.bankAh / float64(s.plant.paths)
	switch {
	case b == jump && j.Ah > 0:
		return "charge was added to it, or taken from the others: an entry may be missing"
	case b == jump:
		return "charge was taken from it at once, or it lost capacity: read it again at another state of charge, where the two differ"
	case j.Ah > 0:
		return "it holds more charge than before: exchanged, or a link closed again"
	case s.plant.paths > 1 && math.Abs(-j.Ah-one) < 2*j.Err+0.2*one:
		return fmt.Sprintf("it lost about one of its %d cells in parallel: a link opened, or a cell failed open", s.plant.paths)
	}
	return "it lost capacity: a link opened or a cell failed"
}
