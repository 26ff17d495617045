package sheet

import (
	"ampstead/finding"
	"fmt"
	"strconv"

	"ampstead/prove"
	q "ampstead/quantity"
)

// TestPlan is a test plan as text.
type TestPlan struct {
	*prove.Plan
	Rows  []Reached  // what no step may pass
	Items []PlanItem // the steps
	Total string     // how long all of it takes
}

// PlanItem is one step of a test.
type PlanItem struct {
	prove.PlanStep
	Lasts string
}

// WithPlan returns the model with a test plan.
func (m *Model) WithPlan(plan *prove.Plan) *Model {
	with := *m
	if plan == nil {
		return &with
	}
	t := &TestPlan{Plan: plan, Rows: PlanLimits(plan, m.Units), Total: AboutHours(plan.Hours)}
	for _, s := range plan.Steps {
		s.Do, s.Until, s.Log = finding.Sentence(s.Do), finding.Sentence(s.Until), finding.Sentence(s.Log)
		t.Items = append(t.Items, PlanItem{s, AboutHours(s.Hours)})
	}
	with.Plan = t
	return &with
}

// PlanLimits lists what no step of a test may pass.
func PlanLimits(p *prove.Plan, sys q.System) []Reached {
	l := p.Limits
	return []Reached{
		{"any one group", between(l.GroupLowV, l.GroupHighV, 2), "the first group that gets there ends the step"},
		{"the whole module", between(round(l.PackLowV, 2), round(l.PackHighV, 2), 1), "the low end holds only where all groups are alike"},
		{"charge current", "at most " + q.Amperes.Text(round(l.ChargeA, 1), sys), "charging ends when it has fallen to " + q.Amperes.Text(round(l.TaperA, 1), sys)},
		{"cells while charging", degrees(l.ChargeMinC, sys) + " to " + degrees(l.ChargeMaxC, sys), "never colder, never warmer"},
		{"any cell", "at most " + degrees(l.StopC, sys), "stop there"},
	}
}

// AboutHours writes how long something takes, roughly.
func AboutHours(h float64) string {
	switch {
	case h < 0.95:
		return fmt.Sprintf("about %.0f min", 60*h)
	case h < 9.5:
		return "about " + strconv.FormatFloat(round(h, 1), 'f', -1, 64) + " h"
	case h < 72:
		return fmt.Sprintf("about %.0f h", h)
	}
	return fmt.Sprintf("about %.0f days", h/24)
}
