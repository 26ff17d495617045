package keep

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// When something is due; ours.
const (
	testYears    = 1.0
	soonDays     = 30.0
	doubtSigma   = 6.0
	storageFull  = 0.15 // of the charge above or below where it is best left
	storageWeeks = 4
)

// urgency orders tasks.
var urgency = []string{"now", "this week", "next visit", "sometime"}

// today lists what to do, most urgent first.
func (s *study) today() {
	rules := []func() []Task{s.limitTasks, s.doubtTasks, s.driftTasks, s.stepTasks, s.overdueTasks, s.balanceTasks, s.conditionTasks, s.testTasks, s.storageTasks}
	for _, rule := range rules {
		s.res.Today = append(s.res.Today, rule()...)
	}
	slices.SortStableFunc(s.res.Today, func(a, b Task) int {
		return slices.Index(urgency, a.Urgency) - slices.Index(urgency, b.Urgency)
	})
}

// limitTasks are for groups out of their window at the last reading.
func (s *study) limitTasks() (list []Task) {
	for _, l := range s.beyond() {
		do := fmt.Sprintf("stop charging and bring group %d down by a small load", l.group)
		if l.low {
			do = fmt.Sprintf("disconnect the loads; charge group %d gently, at a twentieth of its capacity an hour or less", l.group)
		}
		if l.dead {
			do = fmt.Sprintf("disconnect the bank; do not charge group %d", l.group)
		}
		list = append(list, Task{ID: fmt.Sprintf("limit-%d", l.group), Urgency: "now", Do: do, Why: l.found})
	}
	return list
}

func (s *study) doubtTasks() (list []Task) {
	for _, k := range s.doubtful() {
		v := s.latest()
		expect := s.res.Groups[k].OffsetAh
		list = append(list, Task{ID: fmt.Sprintf("repeat-%d", k+1), Urgency: "this week", Do: fmt.Sprintf("read group %d again", k+1),
			Why: fmt.Sprintf("at %s it stands %s from where its log puts it, far beyond the meter's error", s.volts(v.raw[k]), s.ampHours(math.Abs(v.offset[k]-expect)))})
	}
	return list
}

// doubtful lists the groups, from 0, whose last reading lies far from the line.
func (s *study) doubtful() (list []int) {
	v := s.latest()
	if v == nil || v != s.visits[len(s.visits)-1] || len(s.usable) < knownVisits {
		return nil
	}
	for k, g := range s.res.Groups {
		d, t := &s.drawn[k], s.track[k]
		if !known(v.offset[k]) || !d.ok || len(t.hours) == 0 {
			continue
		}
		r := t.row(d.shape, d.layout, len(t.hours)-1)
		q := problem{p: d.end, y: t.offset, sigma: t.sigma}
		if math.Abs(q.residual(len(t.hours)-1, &r, &d.beta)) > doubtSigma && g.Step == nil {
			list = append(list, k)
		}
	}
	return list
}

func (s *study) driftTasks() (list []Task) {
	for _, g := range s.res.Groups {
		if !g.Drifts {
			continue
		}
		t := Task{ID: fmt.Sprintf("drift-%d", g.Number), Urgency: "next visit", By: g.Reached,
			Do:  fmt.Sprintf("follow group %d; feel for warmth, look for damp or dirt on it and for a wire fed from it alone", g.Number),
			Why: s.driftWords(g)}
		if g.DriftMA < 0 {
			t.Do = fmt.Sprintf("look for something that charges group %d alone, or draws from the others", g.Number)
		}
		if g.Reached != "" && s.daysFromNow(g.Reached) < soonDays {
			t.Urgency = "this week"
		}
		list = append(list, t)
	}
	return list
}

func (s *study) driftWords(g Group) string {
	verb := "loses"
	if g.DriftMA < 0 {
		verb = "gains"
	}
	return fmt.Sprintf("it %s %s ± %s against the middle group, seen since %s", verb, milliamps(g.DriftMA), milliamps(g.DriftErr), g.Since)
}

func (s *study) stepTasks() (list []Task) {
	for _, g := range s.res.Groups {
		if g.Step != nil {
			list = append(list, Task{ID: fmt.Sprintf("step-%d", g.Number), Urgency: "this week",
				Do:  fmt.Sprintf("check the links and cells of group %d", g.Number),
				Why: fmt.Sprintf("it moved by %s ± %s about %s: %s", s.ampHours(g.Step.Ah), s.ampHours(g.Step.Err), g.Step.At, g.Step.Like)})
		}
	}
	return list
}

func (s *study) overdueTasks() []Task {
	if len(s.visits) == 0 {
		return []Task{{ID: "read", Urgency: "now", Do: "read every group's voltage after a night of rest", Why: "the log is empty"}}
	}
	last := s.visits[len(s.visits)-1].reading.Taken
	days, _ := s.nextIn()
	days = math.Max(leastDays, math.Min(mostDays, math.Floor(days)))
	if late := s.o.Now.Sub(last).Hours()/hoursADay - days; late >= 1 {
		return []Task{{ID: "read", Urgency: "this week", Do: "read every group's voltage after a night of rest",
			Why: fmt.Sprintf("the last reading is of %s, %.0f days overdue", day(last), late)}}
	}
	return nil
}

func (s *study) balanceTasks() []Task {
	b := &s.res.Balance
	if e := s.unread(); e != nil {
		return []Task{{ID: "after-balance", Urgency: "this week", Do: "read the groups, rested, to see what the levelling did",
			Why: "they were levelled after the last reading that tells their charges"}}
	}
	if !b.Wanted {
		return nil
	}
	t := Task{ID: "balance", Urgency: "this week", Do: s.balanceWords(), Why: fmt.Sprintf("it brings %s of usable energy", s.energyText(b.GainWh))}
	if len(b.Not) > 0 {
		t.Urgency, t.Why = "next visit", t.Why+"; not now: "+strings.Join(b.Not, "; ")
	}
	return []Task{t}
}

// balanceWords says what to do with the balancer at hand; without one, bleeding
// or adding, whichever moves less.
func (s *study) balanceWords() string {
	b := &s.res.Balance
	how, ah := "bleed", b.BleedAh
	r := s.rig.Bank.Balancer
	if r == nil && sum(b.AddAh) < sum(b.BleedAh) || r != nil && r.Kind == "charger" {
		how, ah = "add", b.AddAh
	}
	var list []string
	for k, v := range ah {
		if v > 2*s.res.Groups[k].OffsetErr && v > 0.1*slices.Max(ah) {
			list = append(list, fmt.Sprintf("%s group %d", s.ampHours(v), k+1))
		}
	}
	text := "level the groups: " + how + " " + strings.Join(list, ", ")
	if b.Hours > 0 {
		text += fmt.Sprintf("; about %.2g h with the balancer", b.Hours)
	}
	return text
}

func (s *study) daysFromNow(date string) float64 {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return math.Inf(1)
	}
	return t.Sub(s.o.Now).Hours() / hoursADay
}
