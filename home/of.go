package home

import (
	"fmt"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/quantity"
)

// Of says where a rig stands by what is known of it.
func Of(k Known) *Result {
	r := &Result{Today: []Act{}, Stages: []Stage{}, Unsaid: []string{}, Before: []Act{}}
	if k.File != nil {
		r.Name, r.Note = k.File.Rig.About.Name, k.File.Rig.About.Note
	}
	if k.Fit == nil || k.File == nil {
		r.damaged(&k)
		return r
	}
	r.Bank = bankSentence(k.Fit, k.Units)
	r.Findings = k.found()
	for _, s := range stages {
		stage := s.of(&k)
		stage.Name, stage.Question, stage.At = s.name, s.question, k.Runs[s.name].At
		r.Stages = append(r.Stages, stage)
	}
	r.Unsaid = k.unsaid()
	r.Before = k.before()
	r.Today = k.today(r)
	return r
}

// damaged says what is wrong with the file before anything else can be said.
func (r *Result) damaged(k *Known) {
	d := &Damage{Message: "the file cannot be read"}
	if len(k.Mistakes) > 0 {
		m := k.Mistakes[0]
		d = &Damage{Line: m.Line, Path: m.Path, Message: m.Message, Hint: m.Hint(), More: len(k.Mistakes) - 1}
	}
	r.Damage = d
	where := ""
	if d.Line > 0 {
		where = fmt.Sprintf(" in line %d", d.Line)
	}
	do := "Mend the rig file: the first mistake is" + where + ": " + d.Message
	r.Today = []Act{{Do: finding.Sentence(do), Why: finding.Sentence(d.Hint), Stage: "rig", Part: "text"}}
	for _, s := range stages {
		r.Stages = append(r.Stages, Stage{Name: s.name, Question: s.question, State: "waits for a file that can be read", Standing: Lacking, Next: r.Today[0]})
	}
}

// bankSentence says in one sentence what the bank is.
func bankSentence(res *fit.Result, units quantity.System) string {
	c := res.Cell
	group := "one cell"
	if c.Parallel > 1 {
		group = fmt.Sprintf("%d cells in parallel", c.Parallel)
	}
	how := c.Basis
	if !c.Measured {
		how += ", not measured"
	}
	return fmt.Sprintf("%d groups in series, each of %s, %s: %s (%s), about %s, with %s to use in the daily window from %s to %s.",
		c.Series, group, c.Title, quantity.AmpereHours.Text(c.Capacity, units), how,
		quantity.Volts.Text(res.Daily.BankNominalV, units), quantity.WattHours.Text(res.Daily.UsableWh, units),
		quantity.Volts.Text(res.Daily.BankLowV, units), quantity.Volts.Text(res.Daily.BankHighV, units))
}

// lists are the findings of each stage that was reckoned.
func (k *Known) lists() map[string][]finding.Finding {
	by := map[string][]finding.Finding{}
	if k.Choice != nil {
		by["choose"] = k.Choice.Findings
	}
	if k.Proof != nil {
		by["prove"] = k.Proof.Findings
	}
	if k.Fit != nil {
		by["fit"] = k.Fit.Findings
	}
	if k.Wire != nil {
		by["wire"] = k.Wire.Findings
	}
	if k.Drill != nil {
		by["drill"] = k.Drill.Findings
	}
	if k.Travel != nil {
		by["travel"] = k.Travel.Findings
	}
	if k.Kept != nil {
		by["keep"] = k.Kept.Findings
	}
	return by
}

// found joins the findings of all stages: those of the rig as it stands first,
// what is found of batteries to buy last within their urgency.
func (k *Known) found() []Found {
	by := k.lists()
	var all [][]finding.Finding
	order := []string{"keep", "fit", "wire", "travel", "drill", "prove", "choose"}
	for _, name := range order {
		all = append(all, by[name])
	}
	var list []Found
	for _, f := range finding.Merge(all...) {
		one := Found{Finding: f, Head: headline(f.Found)}
		for _, s := range stages {
			for _, g := range by[s.name] {
				if g.ID == f.ID && g.Where == f.Where {
					one.By = append(one.By, s.name)
					break
				}
			}
		}
		list = append(list, one)
	}
	return list
}

// unsaid names the stages whose findings are missing because they were not
// reckoned; choose concerns batteries that are not in the rig.
func (k *Known) unsaid() []string {
	list := []string{}
	for _, s := range []struct {
		name string
		has  bool
	}{{"prove", k.Proof != nil}, {"wire", k.Wire != nil}, {"drill", k.Drill != nil}, {"travel", k.Travel != nil}, {"keep", k.Kept != nil && k.Kept.Readings > 0}} {
		if !s.has {
			list = append(list, s.name)
		}
	}
	return list
}
