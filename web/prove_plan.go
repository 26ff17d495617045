package web

import (
	"errors"
	"net/http"
	"strings"

	"ampstead/fit"
	"ampstead/sheet"
	"ampstead/shelf"
)

// planForm is what a visitor says of their gear.
type planForm struct {
	Charger, Load, Temperature string
	Wrong                      string
}

type planPage struct {
	Frame    frame
	Sheet    *sheet.Model // with the plan
	PlanForm planForm
}

// testPlan shows the test for the gear a visitor has, to be printed.
func (s *site) testPlan(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	q := r.URL.Query()
	p := planPage{Frame: s.frame(r, "prove", "Test plan", now), Sheet: now.sheet()}
	p.PlanForm = planForm{Charger: q.Get("charger"), Load: q.Get("load"), Temperature: q.Get("temperature")}
	plan, err := shelf.Plan(shelf.Known(now.file.Rig, now.result), shelf.Gear{Charger: p.PlanForm.Charger, Load: p.PlanForm.Load, Temperature: p.PlanForm.Temperature})
	if err != nil {
		p.PlanForm.Wrong = planWrong(err)
		s.render(w, http.StatusUnprocessableEntity, "plan", p)
		return
	}
	p.Sheet = p.Sheet.WithPlan(plan)
	s.render(w, http.StatusOK, "plan", p)
}

func planWrong(err error) string {
	var in *fit.InputError
	if !errors.As(err, &in) {
		return sentences(err.Error())
	}
	return strings.TrimSpace(sentences(in.Path+": "+in.Message, "expected "+in.Expected, "such as "+in.Example))
}
