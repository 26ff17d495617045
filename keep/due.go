package keep

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// conditionTasks are for a log whose readings tell little.
func (s *study) conditionTasks() []Task {
	n := len(s.visits)
	if n == 0 || s.visits[n-1].weight >= 0.1 {
		return nil
	}
	v := s.visits[n-1]
	do := "read again after a night of rest with everything off"
	if slices.ContainsFunc(v.why, func(w string) bool { return strings.Contains(w, "flat") }) {
		do = "read again near full or near empty, where the curve is steep"
	}
	return []Task{{ID: "conditions", Urgency: "next visit", Do: do, Why: "the last reading weighs little: " + firstOf(v.why)}}
}

func (s *study) testTasks() []Task {
	var last time.Time
	for _, p := range s.tests() {
		if p.at.After(last) {
			last = p.at
		}
	}
	if len(s.visits) == 0 || s.res.Capacity.Pairs > 0 && s.res.Capacity.ErrAh < 0.03*s.res.Capacity.Ah {
		return nil
	}
	why := "the capacity was never measured"
	if !last.IsZero() {
		if s.o.Now.Sub(last).Hours() < testYears*daysAYear*hoursADay {
			return nil
		}
		why = "the last test is of " + day(last)
	}
	return []Task{{ID: "capacity", Urgency: "sometime", Do: "test the capacity, or count charge between two rested readings far apart", Why: why}}
}

// storageTasks are for a bank that stands still away from where it is best left.
func (s *study) storageTasks() []Task {
	n := len(s.visits)
	if n < storageWeeks || s.res.SoC == nil {
		return nil
	}
	still := true
	for _, v := range s.visits[n-storageWeeks:] {
		still = still && known(v.restH) && v.restH > 7*hoursADay
	}
	want := s.plant.kind.StorageSoC.Value
	if !still || want == 0 || math.Abs(*s.res.SoC-want) < storageFull {
		return nil
	}
	return []Task{{ID: "storage", Urgency: "sometime", Do: fmt.Sprintf("leave the bank at about %.0f %% while it is not used", 100*want),
		Why: fmt.Sprintf("it has stood at %.0f %% for weeks", 100**s.res.SoC)}}
}
