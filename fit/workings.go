package fit

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/working"
)

// about gives a finding on a threshold what stands behind its numbers: where the
// cell can be when it acts as set today, what the cell bears, and how the setting
// advised was placed.
func (s *study) about(m *limiter, f finding.Finding, others ...*limiter) finding.Finding {
	uses := append([]figure.Use{s.bandUse(m)}, m.hows...)
	for _, o := range others {
		uses = append(uses, s.bandUse(o))
	}
	return s.by(f, append(append(uses, s.limits()), s.advice(m.path)...)...)
}

// by gives a finding the figures behind its numbers, each application once.
func (s *study) by(f finding.Finding, uses ...figure.Use) finding.Finding {
	return f.By(working.Uses(uses...)...)
}

// advice is what stands behind the setting advised at a path.
func (s *study) advice(path string) []figure.Use {
	for k := range s.sheet {
		if s.sheet[k].Path == path {
			return s.sheet[k].How
		}
	}
	return nil
}

// reach explains where the layers outside a daily limit begin to act.
func (s *study) outerBands(m *limiter) []figure.Use {
	var uses []figure.Use
	for _, name := range outer(m) {
		for _, o := range s.ladder.by[name] {
			uses = append(uses, s.bandUse(o))
		}
	}
	return uses
}

// meanAtHarmUse explains where the mean of the groups stands as the weakest is empty.
func (s *study) meanAtHarmUse() figure.Use {
	share, _ := s.weakShare()
	mean, _ := s.meanAtHarm()
	return s.figures.Use(tolerance.WeakGroup, figure.T("cell", s.cell.Name), figure.N("voltage", mean), figure.N("share", share))
}

// chargeLimitAt explains the charge current the cells take at a temperature.
func (s *study) chargeLimitAt(celsius float64) figure.Use {
	return s.figures.Use(cell.ChargeLimit, figure.T("cell", s.cell.Name), figure.N("capacity", s.info.Capacity), figure.N("temperature", celsius))
}

// routeCold names the coldest temperature of the route.
func (s *study) routeCold() finding.Working {
	c, where := s.coldest()
	return working.Stated(working.Of(where, c, q.Celsius))
}
