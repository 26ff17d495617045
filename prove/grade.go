package prove

import (
	"fmt"

	"ampstead/quantity"
)

// The grades, from good to bad; undecided lies between two of them.
const (
	gradeAccept = iota
	gradeDerate
	gradeRefuse
)

var gradeNames = []string{"accept", "derate", "refuse"}

const undecided = "undecided"

// verdict is the grades a value may mean, from best to worst, and why.
type verdict struct {
	best, worst int
	reason      string
}

// grade weighs everything the log told against the table.
func (s *study) grade() {
	r := s.res
	r.Reasons = []string{}
	best, worst := gradeAccept, gradeAccept
	for _, v := range s.verdicts() {
		best, worst = max(best, v.best), max(worst, v.worst)
		if v.reason != "" {
			r.Reasons = append(r.Reasons, v.reason)
		}
	}
	r.Grade = gradeNames[best]
	if best != worst {
		r.Grade = undecided
	}
	if r.Grade == gradeNames[gradeDerate] {
		r.DerateAh = s.derated()
	}
}

// derated is what can be counted on: the least the string or its weakest group
// gives, less its error.
func (s *study) derated() float64 {
	ah := s.res.CapacityAh - s.res.CapacityErr
	for _, g := range s.res.Groups {
		if g.CapacityAh > 0 && (ah <= 0 || g.CapacityAh-g.CapacityErr < ah) {
			ah = g.CapacityAh - g.CapacityErr
		}
	}
	return max(ah, 0)
}

// verdicts are one for each row of the table that the log says something of,
// and one for what it must say and does not.
func (s *study) verdicts() []verdict {
	measured := s.measures()
	list := []verdict{}
	for _, t := range thresholds {
		if m, ok := measured[t.ID]; ok {
			list = append(list, t.weigh(m))
		}
	}
	if _, told := measured["capacity"]; !told {
		list = append(list, s.untold())
	}
	if _, told := measured["resistance"]; !told {
		list = append(list, verdict{gradeAccept, gradeDerate, "the resistance was not told: without it nothing is taken as it is"})
	}
	return list
}

// untold is the verdict where no share of a rated capacity can be had.
func (s *study) untold() verdict {
	switch {
	case s.res.CapacityAh == 0:
		return verdict{gradeAccept, gradeRefuse, "the capacity could not be measured: nothing is graded without it"}
	case s.o.RatedAh == 0:
		return verdict{reason: "the rated capacity is not given: the grade says nothing of what is left of it"}
	}
	return verdict{}
}

// measured is a value with its error and whose it is.
type measured struct {
	estimate
	whose string
}

// weigh compares a value and its error with a row.
func (t *Threshold) weigh(m measured) verdict {
	v := verdict{t.side(m.value - m.sigma), t.side(m.value + m.sigma), ""}
	if t.Falling {
		v.best, v.worst = v.worst, v.best
	}
	said := fmt.Sprintf("%s: %s%s ± %s", t.What, m.whose, t.text(m.value), t.text(m.sigma))
	switch {
	case v.best != v.worst:
		v.reason = fmt.Sprintf("%s; the error spans the threshold of %s (%s): undecided", said, t.text(t.limit(v.worst)), t.Source.Standing)
	case v.worst == gradeAccept:
		v.reason = fmt.Sprintf("%s; good, the threshold is %s (%s)", said, t.text(t.Derate), t.Source.Standing)
	default:
		v.reason = fmt.Sprintf("%s; worse than %s (%s): %s, for %s", said, t.text(t.limit(v.worst)), t.Source.Standing, gradeNames[v.worst], t.Because)
	}
	return v
}

// limit is the threshold to a grade.
func (t *Threshold) limit(grade int) float64 {
	if grade == gradeRefuse {
		return t.Refuse
	}
	return t.Derate
}

// side is the grade of a value taken as exact.
func (t *Threshold) side(v float64) int {
	past := func(limit float64) bool { return v > limit }
	if t.Falling {
		past = func(limit float64) bool { return v < limit }
	}
	switch {
	case past(t.Refuse):
		return gradeRefuse
	case past(t.Derate):
		return gradeDerate
	}
	return gradeAccept
}

func (t *Threshold) text(v float64) string {
	if t.Dim == quantity.Fraction {
		return fmt.Sprintf("%.1f %%", 100*v)
	}
	if t.Dim == quantity.Plain {
		return fmt.Sprintf("%.2f", v)
	}
	return t.Dim.Text(v, quantity.Metric)
}
