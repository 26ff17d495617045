package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// mostEdits is how many values one request may carry; the largest section of
// a real rig has a few dozen.
const mostEdits = 400

type formPage struct {
	Frame    frame
	Stamp    string
	Find     string
	None     bool // nothing is called what was looked for
	Groups   []group
	Panel    panel
	Did      did
	Saved    int      // values saved by the request before
	Refused  bool     // nothing was saved
	Other    []string // messages that stand beside no field
	Problems []problemLine
}

// sought is what of the form a visitor wants to see.
type sought struct {
	Open []string // paths of sections that are open
	At   string   // path of a value or part to go to
	New  string   // path of what was just added
	Find string   // words to look for
	Add  attempt  // an addition that was refused
}

// attempt is what was typed for an addition that could not be made, and why.
type attempt struct {
	Path   string
	Values map[string]string
	Wrong  string
}

func soughtOf(form url.Values) sought {
	return sought{Open: bounded(form["open"]), At: form.Get("at"), New: form.Get("new"), Find: strings.TrimSpace(form.Get("find"))}
}

// bounded keeps a list from a request at a sane length.
func bounded(list []string) []string { return list[:min(len(list), mostEdits)] }

// opens reports whether the section at path is to be seen with its values.
func (a sought) opens(path string) bool {
	return slices.Contains(a.Open, path) || within(a.At, path) || within(a.New, path) || within(a.Add.Path, path)
}

// within reports whether path is outer or lies below it.
func within(path, outer string) bool { return path == outer || strings.HasPrefix(path, outer+".") }

func (s *site) form(w http.ResponseWriter, r *http.Request) {
	now := s.look(r)
	if now.file == nil {
		s.trouble(w, r, now)
		return
	}
	query := r.URL.Query()
	want := soughtOf(query)
	saved, _ := strconv.Atoi(query.Get("saved"))
	p := formPage{Groups: now.groups(want), Saved: saved, Find: want.Find}
	if kind := query.Get("did"); didText[kind] != "" {
		p.Did = did{kind, s.stepsOf(now)}
	} else if saved > 0 {
		p.Did.Steps = s.stepsOf(now)
	}
	s.showForm(w, r, http.StatusOK, p, now)
}

// formPart sends parts of the form to a page that is open: one section's values, or
// all sections as they are asked for.
func (s *site) formPart(w http.ResponseWriter, r *http.Request) {
	now := s.look(r)
	if now.file == nil {
		http.Error(w, "The file cannot be read at the moment. Mend it as text first.", http.StatusConflict)
		return
	}
	var parts map[string]string
	var err error
	if of := r.URL.Query().Get("of"); of != "" {
		parts, err = s.sectionPart(now, of)
	} else {
		parts, err = s.wholeParts(now, soughtOf(r.URL.Query()))
	}
	if err != nil {
		http.Error(w, "This part could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	sendLive(w, http.StatusOK, liveAnswer{Stamp: now.stamp, Parts: parts})
}

func (s *site) sectionPart(now *reading, path string) (map[string]string, error) {
	for _, g := range now.groups(sought{Open: []string{path}}) {
		for _, sec := range g.Sections {
			if sec.Path == path {
				body, err := s.part("section-body", sec)
				return map[string]string{sec.ID + "-body": body}, err
			}
		}
	}
	return map[string]string{}, nil
}

func (s *site) showForm(w http.ResponseWriter, r *http.Request, status int, p formPage, now *reading) {
	p.Frame = s.frame(r, "rig", "Rig", now)
	p.Frame.Back = s.at("/rig")
	p.Frame.Scripts = []string{"rig.js"}
	p.Stamp = now.stamp
	p.Panel = now.panel()
	p.None = p.Find != "" && len(p.Groups) == 0
	p.Problems = problemLines(string(now.text), now.problems)
	s.render(w, status, "form", p)
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
		s.unsaved(w, r, rigUnsaved, err)
	case live:
		s.answer(w, r, edits, out)
	case out.Refused.any():
		s.showRefusal(w, r, edits, out, attempt{})
	default:
		http.Redirect(w, r, s.at("/rig?"+savedAt(r.PostForm, out)), http.StatusSeeOther)
	}
}

// savedAt leads back to the section that was saved, as it is called now.
func savedAt(form url.Values, out outcome) string {
	to := url.Values{"saved": {strconv.Itoa(out.Saved)}}
	path := out.renamed(form.Get("section"))
	if find := form.Get("find"); find != "" {
		to.Set("find", find)
	} else if path != "" {
		to.Set("open", path)
	}
	if path == "" {
		return to.Encode()
	}
	return to.Encode() + "#s-" + elementID(path)
}

// readEdits reads the values of a form, at least one: v:PATH, with w:PATH for what
// stood there; or the repeated path, value and was.
func readEdits(form url.Values) ([]edit, bool) {
	edits, ok := anyEdits(form)
	return edits, ok && len(edits) > 0
}

// anyEdits is readEdits for a form that may have none.
func anyEdits(form url.Values) ([]edit, bool) {
	paths, values, were := form["path"], form["value"], form["was"]
	if len(paths) > mostEdits || len(values) != len(paths) || len(were) != 0 && len(were) != len(paths) {
		return nil, false
	}
	var edits []edit
	for i := range paths {
		e := edit{Path: paths[i], Value: oneLine(values[i])}
		if len(were) > 0 {
			e.Was = &were[i]
		}
		edits = append(edits, e)
	}
	for key, value := range form {
		if path, ok := strings.CutPrefix(key, "v:"); ok {
			e := edit{Path: path, Value: oneLine(value[0])}
			if was, ok := form["w:"+path]; ok {
				e.Was = &was[0]
			}
			edits = append(edits, e)
		}
	}
	slices.SortStableFunc(edits[len(paths):], func(a, b edit) int { return strings.Compare(a.Path, b.Path) })
	return edits, len(edits) <= mostEdits
}

// oneLine takes the carriage returns out that browsers put into a text.
func oneLine(value string) string { return strings.ReplaceAll(value, "\r\n", "\n") }

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
func (s *site) showRefusal(w http.ResponseWriter, r *http.Request, edits []edit, out outcome, tried attempt) {
	if out.After.file == nil {
		s.trouble(w, r, out.After)
		return
	}
	want := soughtOf(r.PostForm)
	want.Add = tried
	want.Open = append(want.Open, r.PostForm.Get("section"))
	p := formPage{Groups: out.After.groups(want), Refused: true, Other: out.Refused.Other, Find: want.Find}
	typed := map[string]edit{}
	for _, e := range edits {
		typed[e.Path] = e
	}
	for i := range p.Groups {
		for j := range p.Groups[i].Sections {
			p.Groups[i].Sections[j].refuse(typed, &out.Refused)
		}
	}
	p.Other = append(p.Other, out.Refused.unplaced(out.After.fieldPaths())...)
	s.showForm(w, r, refusedStatus(out.Refused), p, out.After)
}

// refuse keeps what was typed in the section and puts the messages beside it.
func (s *section) refuse(typed map[string]edit, why *refusal) {
	for i := range s.Parts {
		p := &s.Parts[i]
		for _, list := range [][]field{p.Given, p.More} {
			for j := range list {
				f := &list[j]
				e, ok := typed[f.Path]
				if !ok {
					continue
				}
				f.Shown = e.Value
				f.Wrong, f.Conflict = why.message(f.Path)
				s.Open = s.Open || f.Shown != f.Written || f.Wrong != ""
				p.Unfold = p.Unfold || !f.Given && (f.Shown != "" || f.Wrong != "")
			}
		}
	}
}

func refusedStatus(why refusal) int {
	if len(why.Conflict) > 0 || why.Stale {
		return http.StatusConflict
	}
	return http.StatusUnprocessableEntity
}
