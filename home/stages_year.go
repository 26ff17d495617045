package home

import (
	"strconv"
	"strings"

	"ampstead/finding"
	"ampstead/keep"
	"ampstead/quantity"
	"ampstead/travel"
)

func (k *Known) travel() Stage {
	if k.Travel == nil {
		return k.absent("travel", "the year was not reckoned yet", Act{Do: "Reckon the year on the road.", Stage: "travel"})
	}
	t := k.Travel
	state := yearWords(t)
	s := judged(t.Findings, state, Act{Do: "See the year month by month.", Stage: "travel"})
	if n := finding.Count(t.Findings, finding.Stop); n > 0 {
		s.State = strconv.Itoa(n) + " to stop for; " + state
	}
	return s
}

// yearWords says in a phrase how the year goes.
func yearWords(t *travel.Result) string {
	hours, low := t.Bands.UnservedHours, t.Bands.SoCMin
	if hours.High < 0.5 {
		text := "no hour short in " + counted(max(1, t.Bands.Years), "weather year") + "; the bank comes down to " + percent(low.Low)
		return text + month(t, " in ", func(m *travel.Month) float64 { return -m.SoCMin })
	}
	text := "short " + rangeOf(hours.Low, hours.High) + " hours a year" + month(t, ", most in ", func(m *travel.Month) float64 { return m.UnservedH })
	if t.Bands.LostFrost.Middle >= 500 {
		text += "; frost keeps sun out on " + counted(frostDays(t), "day")
	}
	return text
}

func month(t *travel.Result, before string, of func(m *travel.Month) float64) string {
	if name := worstMonth(t, of); name != "" {
		return before + name
	}
	return ""
}

// leastWh is the least energy of a day that counts.
const leastWh = 1.0

func frostDays(t *travel.Result) (n int) {
	for i := range t.Days {
		if t.Days[i].LostFrost >= leastWh {
			n++
		}
	}
	return n
}

func (k *Known) prove() Stage {
	plan := Act{Do: "Make a test plan for the gear at hand.", Stage: "prove", Part: "plan"}
	if k.Proof == nil {
		if k.Log != "" {
			return k.absent("prove", "the log "+k.Log+" is kept and was not read yet", Act{Do: "Read it.", Stage: "prove"})
		}
		if m := k.File.Rig.Bank.Measured; m != nil && !m.Estimated && m.Capacity != nil {
			state := "no log kept; the file says " + quantity.AmpereHours.Text(float64(*m.Capacity), k.Units) + " were measured"
			if m.Date != nil {
				state += " on " + m.Date.Time.Format("2 January 2006")
			}
			return Stage{State: state, Standing: Done, Next: Act{Do: "Keep the log of that test with the rig.", Stage: "prove"}}
		}
		return Stage{State: "no log kept: the bank's health is not measured", Standing: Open, Next: plan}
	}
	p := k.Proof
	state := gradeWords(p.Grade)
	if p.CapacityAh > 0 {
		state += ", " + whole(p.CapacityAh) + " Ah, by the log " + k.Log
	}
	s := judged(p.Findings, state, Act{Do: "See each group.", Stage: "prove"})
	s.State = state
	if p.Grade == "refuse" && s.Standing != Stop {
		s.Standing, s.Next = Stop, Act{Do: "Read why, and do not build it in.", Stage: "prove"}
	}
	if p.Grade == "undecided" && s.Standing == Done {
		s.Standing, s.Next = Open, plan
	}
	return s
}

func gradeWords(grade string) string {
	switch grade {
	case "accept":
		return "accepted on what the log shows"
	case "derate":
		return "to be used for less than it is rated"
	case "refuse":
		return "refused"
	}
	return "the log does not decide"
}

func (k *Known) choose() Stage {
	n := len(k.File.Rig.Candidates)
	if k.Choice == nil {
		switch {
		case k.Runs["choose"].Say != "" || k.Runs["choose"].Why != "":
			return k.absent("choose", "", Act{})
		case n == 0:
			return Stage{State: "no other battery is in the file to compare", Standing: Open, Next: Act{Do: "Compare what you could buy.", Stage: "choose"}}
		}
		return Stage{State: otherBatteries(n) + " in the file, not compared yet", Standing: Open, Next: Act{Do: "Compare them.", Stage: "choose"}}
	}
	state := "no other battery is in the file to compare"
	if n > 0 {
		state = "compared with " + otherBatteries(n)
	}
	s := judged(k.Choice.Findings, state, Act{Do: "See them side by side.", Stage: "choose"})
	if s.Standing == Stop { // of batteries that are not bought
		s.State, s.Standing, s.Next = state+mendWords(k.Choice.Findings), Mend, Act{Do: "See what forbids one of them.", Stage: "choose", Part: "findings"}
	}
	if n == 0 && s.Standing == Done {
		s.Standing = Open
	}
	return s
}

func otherBatteries(n int) string {
	if n == 1 {
		return "1 other battery"
	}
	return strconv.Itoa(n) + " other batteries"
}

func (k *Known) keep() Stage {
	enter := Act{Do: "Enter a reading of every group.", Stage: "keep", Part: "enter"}
	if k.Kept == nil {
		return k.absent("keep", "the logbook was not read", Act{Do: "Open it.", Stage: "keep"})
	}
	if k.Kept.Readings == 0 {
		return Stage{State: "no reading in the logbook yet", Standing: Open, Next: enter}
	}
	parts := []string{counted(k.Kept.Readings, "reading")}
	if last, ok := instant(k.Kept.To, k.zone()); ok {
		parts[0] = "last reading " + ago(days(last, k.Now))
	}
	s := judged(k.Kept.Findings, "", enter)
	visit, ok := k.nextVisit()
	switch {
	case ok && days(k.Now, visit) < 0:
		parts = append(parts, "the visit of "+dayName(visit, k.Now)+" is overdue")
	case ok:
		parts = append(parts, "next visit "+dayName(visit, k.Now))
	}
	if drifting := k.drifting(); drifting != "" {
		parts = append(parts, drifting)
	}
	s.State = strings.Join(parts, "; ")
	if s.Standing != Stop && (pressing(k.Kept) != nil || ok && days(k.Now, visit) <= 0) {
		s.Standing, s.Next = Due, enter
		if t := pressing(k.Kept); t != nil {
			s.Next = Act{Do: finding.Sentence(t.Do), Why: finding.Sentence(t.Why), Stage: "keep"}
		}
	}
	return s
}

// pressing is the first task that cannot wait for the next visit.
func pressing(res *keep.Result) *keep.Task {
	for i := range res.Today {
		if t := &res.Today[i]; t.Urgency == "now" || t.Urgency == "this week" {
			return t
		}
	}
	return nil
}

func (k *Known) drifting() string {
	var list []string
	for _, g := range k.Kept.Groups {
		if g.Drifts {
			list = append(list, strconv.Itoa(g.Number))
		}
	}
	switch len(list) {
	case 0:
		return ""
	case 1:
		return "group " + list[0] + " drifts"
	}
	return "groups " + strings.Join(list, ", ") + " drift"
}
