package keep

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"ampstead/store"
)

const (
	eventsKept    = 4    // last times it was balanced that drift is reckoned across
	statedShare   = 0.05 // by which the charge stated of a balancing may be wrong
	statedLeastAh = 0.1
)

// event is something done that shifts the groups against one another.
type event struct {
	hours float64
	ah    []float64 // stated by group, nil when not
}

// eventsOf lists when the bank was balanced, in order of time.
func (s *study) eventsOf(done []store.Done) []event {
	var list []event
	for _, d := range inOrder(done) {
		if strings.Contains(strings.ToLower(d.What), "balanced") {
			list = append(list, event{hours: s.hoursAt(d.At), ah: s.stated(d.Ah)})
		}
	}
	return list
}

// stated is the charge of each group that an entry states, nil when it does not
// state it for every group.
func (s *study) stated(ah []float64) []float64 {
	if len(ah) != s.plant.n {
		return nil
	}
	for _, each := range ah {
		if math.IsNaN(each) || math.IsInf(each, 0) {
			return nil
		}
	}
	return ah
}

// inOrder sorts what was done by time, whatever order it came in.
func inOrder(done []store.Done) []store.Done {
	list := slices.DeleteFunc(slices.Clone(done), func(d store.Done) bool { return d.At.IsZero() })
	slices.SortFunc(list, func(a, b store.Done) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID)) })
	return list
}

// startsOf is the hour from which each group's readings count: a group that was
// exchanged begins anew. An entry without amp-hours means all groups, one with
// them those it names with other than zero.
func (s *study) startsOf(done []store.Done) []float64 {
	starts := make([]float64, s.plant.n)
	for k := range starts {
		starts[k] = math.Inf(-1)
	}
	for _, d := range inOrder(done) {
		if !strings.Contains(strings.ToLower(d.What), "exchanged") {
			continue
		}
		ah := s.stated(d.Ah)
		for k := range starts {
			if ah == nil || ah[k] != 0 {
				starts[k] = s.hoursAt(d.At)
			}
		}
	}
	return starts
}

func (s *study) hoursAt(t time.Time) float64 {
	if len(s.visits) == 0 {
		return 0
	}
	return t.Sub(s.visits[0].reading.Taken).Hours()
}

// unread is a balancing after the last reading that tells the charges, nil when
// there is none.
func (s *study) unread() *event {
	v := s.latest()
	if n := len(s.events); v != nil && n > 0 && s.events[n-1].hours > v.hours {
		return &s.events[n-1]
	}
	return nil
}
