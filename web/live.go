package web

import (
	"encoding/json"
	"maps"
	"net/http"
	"reflect"
	"slices"

	"ampstead/rig"
)

// liveAnswer is what the form's module gets for a change: what to say, what
// stands in each field concerned, and the parts of the page that read
// otherwise now.
type liveAnswer struct {
	Saved  bool                 `json:"saved"`
	Say    string               `json:"say"`
	Stamp  string               `json:"stamp"`
	Fields map[string]liveField `json:"fields"` // by element id
	Parts  map[string]string    `json:"parts"`  // inner HTML by element id

	Go      string            `json:"go,omitempty"`      // id of what to go to: what is new
	Renames map[string]string `json:"renames,omitempty"` // paths that are called otherwise now
}

type liveField struct {
	Was     string `json:"was"`   // in the file now
	Value   string `json:"value"` // to stand in the input
	Message string `json:"message"`
}

// answer sends what the change did to a page that is open.
func (s *site) answer(w http.ResponseWriter, r *http.Request, edits []edit, out outcome) {
	a := liveAnswer{Saved: !out.Refused.any(), Stamp: out.After.stamp, Fields: map[string]liveField{}, Parts: map[string]string{}}
	a.Say = say(out)
	for _, e := range edits {
		a.Fields[elementID(e.Path)] = liveFieldOf(e, out)
	}
	if out.Before.file != nil && out.After.file != nil {
		want := soughtOf(r.PostForm)
		for i, path := range want.Open {
			want.Open[i] = out.renamed(path)
		}
		parts, err := s.changedParts(out, r.PostForm.Get("seen"), want)
		if err != nil {
			http.Error(w, "The answer could not be made: "+err.Error(), http.StatusInternalServerError)
			return
		}
		if err := s.addSteps(parts, out.After); err != nil {
			http.Error(w, "The answer could not be made: "+err.Error(), http.StatusInternalServerError)
			return
		}
		a.Parts = parts
	}
	status := http.StatusOK
	if !a.Saved {
		status = refusedStatus(out.Refused)
	}
	a.Renames = out.Renames
	sendLive(w, status, a)
}

func sendLive(w http.ResponseWriter, status int, a liveAnswer) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(a) // a visitor who left is no failure of ours
}

// say is what a listener hears after a change: short, and what it changed.
func say(out outcome) string {
	switch {
	case len(out.Refused.Other) > 0:
		return out.Refused.Other[0]
	case len(out.Refused.Conflict) > 0:
		return "Not saved: the file was changed meanwhile."
	case out.Refused.any():
		return "Not saved."
	case out.After.result == nil:
		return "Saved. The settings cannot be worked out from this; what is wrong stands above the form."
	case out.Before.result == nil:
		return "Saved. The settings can be worked out again."
	}
	if s := out.After.since; s != nil && (len(s.Gone) > 0 || len(s.New) > 0) {
		return "Saved. " + s.Text() + "."
	}
	return "Saved."
}

func liveFieldOf(e edit, out outcome) liveField {
	message, conflict := out.Refused.message(e.Path)
	f := liveField{Value: e.Value, Was: e.Value, Message: message}
	switch {
	case conflict:
		f.Was = out.Refused.Conflict[e.Path] // saving again then means it
	case out.Refused.any() && e.Was != nil:
		f.Was = *e.Was
	}
	return f
}

// changedParts renders the parts that differ from what the page shows: all of
// the sections when its fields are no longer those of the file, as after a name
// was changed or when the page was made from an older content.
func (s *site) changedParts(out outcome, seen string, want sought) (map[string]string, error) {
	stale := seen != out.Before.stamp
	if !out.Refused.any() && (stale || !sameForm(out.Before.form(), out.After.form())) {
		return s.wholeParts(out.After, want)
	}
	after, err := s.parts(out.After)
	if err != nil || stale {
		return after, err
	}
	before, err := s.parts(out.Before)
	if err != nil {
		return nil, err
	}
	for id, html := range before {
		if after[id] == html {
			delete(after, id)
		}
	}
	return after, nil
}

// sameForm reports whether two forms have the same fields, and offer the same to be
// added and taken out.
func sameForm(a, b rig.Form) bool {
	samePath := func(a, b rig.Field) bool { return a.Path == b.Path }
	return slices.EqualFunc(a.Fields, b.Fields, samePath) && reflect.DeepEqual(a.Items, b.Items) && reflect.DeepEqual(a.Additions, b.Additions)
}

// wholeParts renders all sections as they are asked for, with what follows from them.
func (s *site) wholeParts(now *reading, want sought) (map[string]string, error) {
	groups := now.groups(want)
	parts := map[string]string{}
	for id, data := range map[string]any{
		"sections": formPage{Groups: groups, Find: want.Find, None: want.Find != "" && len(groups) == 0, Stamp: now.stamp},
		"contents": groups, "panel": now.panel(), "problems": problemLines(string(now.text), now.problems),
	} {
		html, err := s.part(id, data)
		if err != nil {
			return nil, err
		}
		parts[id] = html
	}
	return parts, nil
}

// parts renders everything on the form that follows from the values, once for
// each reading: what is "after" one change is "before" the next.
func (s *site) parts(now *reading) (map[string]string, error) {
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.live == nil {
		list, err := s.renderParts(now)
		if err != nil {
			return nil, err
		}
		now.live = list
	}
	return maps.Clone(now.live), nil
}

func (s *site) renderParts(now *reading) (map[string]string, error) {
	list := map[string]string{}
	var failed error
	put := func(id, name string, data any) {
		html, err := s.part(name, data)
		if err != nil {
			failed = err
		}
		list[id] = html
	}
	put("panel", "panel", now.panel())
	put("problems", "problems", problemLines(string(now.text), now.problems))
	for _, g := range now.groups(sought{}) {
		for _, sec := range g.Sections {
			put(sec.ID+"-sum", "sum", sec)
			put(sec.ID+"-said", "said", sec.Said)
			for _, f := range sec.fields {
				list[f.ID+"-notes"] = ""
				if f.Notes.Any() {
					put(f.ID+"-notes", "notes", f.Notes)
				}
			}
		}
	}
	return list, failed
}
