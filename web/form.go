package web

import (
	"net/http"
	"net/url"
	"strconv"

	"ampstead/finding"
	"ampstead/quantity"
)

// mostEdits is how many values one request may carry; the largest section of
// a real rig has a few dozen.
const mostEdits = 400

type formPage struct {
	Frame    frame
	Stamp    string
	Sections []section
	Panel    panel
	Saved    int      // values saved by the request before
	Refused  bool     // nothing was saved
	Other    []string // messages that stand beside no field
	Problems []problemLine
}

// panel shows what follows from the values, beside the form.
type panel struct {
	Tally    tally
	Findings []panelFinding
	Rows     []panelRow
}

type panelFinding struct {
	finding.Finding
	To string
}

type panelRow struct{ What, Value string }

func (s *site) form(w http.ResponseWriter, r *http.Request) {
	now := s.look(r)
	if now.file == nil {
		s.trouble(w, r, now)
		return
	}
	saved, _ := strconv.Atoi(r.URL.Query().Get("saved"))
	s.showForm(w, r, http.StatusOK, formPage{Sections: now.sections(), Saved: saved}, now)
}

func (s *site) showForm(w http.ResponseWriter, r *http.Request, status int, p formPage, now *reading) {
	p.Frame = s.frame(r, "rig", "Rig", now)
	p.Frame.Back = s.at("/rig")
	p.Frame.Scripts = []string{"rig.js"}
	p.Stamp = now.stamp
	p.Panel = now.panel()
	p.Problems = problemLines(string(now.text), now.problems)
	s.render(w, status, "form", p)
}

func (now *reading) panel() panel {
	if now.result == nil {
		return panel{}
	}
	safe, daily := now.result.Window, now.result.Daily
	var found []panelFinding
	to := now.places()
	for _, f := range now.found() {
		found = append(found, panelFinding{f, to.link(f.Where)})
	}
	return panel{
		Tally:    tallyOf(now.found()),
		Findings: found,
		Rows: []panelRow{
			{"safe window", span(safe.BankLowV, safe.BankHighV)},
			{"daily window", span(daily.BankLowV, daily.BankHighV)},
			{"usable in it", quantity.WattHours.Text(daily.UsableWh, now.units)},
			{"one cell in it", span(daily.CellLowV, daily.CellHighV)},
		},
	}
}

func span(low, high float64) string {
	decimals := 1
	if high < 6 {
		decimals = 2
	}
	return quantity.Volts.Fixed(low, "", decimals) + " to " + quantity.Volts.Fixed(high, "V", decimals)
}

// set takes one value (live) or a whole section (without JavaScript).
func (s *site) set(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	edits, ok := readEdits(r.PostForm)
	if !ok {
		http.Error(w, "Each value needs its path.", http.StatusBadRequest)
		return
	}
	s.desk.take(edits, r.PostForm.Get("take"))
	out, err := s.desk.change(edits)
	out.show(func(now *reading) *reading { return now.in(s.units(r, now)) })
	live := r.Header.Get("Accept") == "application/json"
	switch {
	case err != nil:
		http.Error(w, "The file could not be saved and is as it was: "+plainReason(err), http.StatusInternalServerError)
	case live:
		s.answer(w, r, edits, out)
	case out.Refused.any():
		s.showRefusal(w, r, edits, out)
	default:
		to := s.at("/rig?saved=" + strconv.Itoa(out.Saved) + "#" + url.PathEscape(r.PostForm.Get("section")))
		http.Redirect(w, r, to, http.StatusSeeOther)
	}
}

// readEdits pairs the repeated path, value and was of a form.
func readEdits(form url.Values) ([]edit, bool) {
	paths, values, were := form["path"], form["value"], form["was"]
	sane := len(paths) > 0 && len(paths) <= mostEdits && len(values) == len(paths)
	if !sane || len(were) != 0 && len(were) != len(paths) {
		return nil, false
	}
	var edits []edit
	for i := range paths {
		e := edit{Path: paths[i], Value: values[i]}
		if len(were) > 0 {
			e.Was = &were[i]
		}
		edits = append(edits, e)
	}
	return edits, true
}

// take puts the recommended value in place of what stands in the form, for the
// path whose button was pressed.
func (d *desk) take(edits []edit, path string) {
	if path == "" {
		return
	}
	now := d.read()
	if now.result == nil {
		return
	}
	for i := range edits {
		if n := now.notes()[path]; edits[i].Path == path && n.Advice != "" {
			edits[i].Value = n.Advice
		}
	}
}

// showRefusal shows the form again with what was typed and why it was refused.
func (s *site) showRefusal(w http.ResponseWriter, r *http.Request, edits []edit, out outcome) {
	if out.After.file == nil {
		s.trouble(w, r, out.After)
		return
	}
	p := formPage{Sections: out.After.sections(), Refused: true, Other: out.Refused.Other}
	typed := map[string]edit{}
	for _, e := range edits {
		typed[e.Path] = e
	}
	for i := range p.Sections {
		p.Sections[i].refuse(typed, &out.Refused)
	}
	p.Other = append(p.Other, out.Refused.unplaced(out.After.fieldPaths())...)
	s.showForm(w, r, refusedStatus(out.Refused), p, out.After)
}

// refuse keeps what was typed in the section and puts the messages beside it.
func (s *section) refuse(typed map[string]edit, why *refusal) {
	for i := range s.Fields {
		f := &s.Fields[i]
		e, ok := typed[f.Path]
		if !ok {
			continue
		}
		f.Shown = e.Value
		s.Open = true
		f.Wrong, f.Conflict = why.message(f.Path)
	}
}

func refusedStatus(why refusal) int {
	if len(why.Conflict) > 0 {
		return http.StatusConflict
	}
	return http.StatusUnprocessableEntity
}
