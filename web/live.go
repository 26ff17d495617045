package web

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
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
		parts, err := s.changedParts(out, r.PostForm.Get("seen"))
		if err != nil {
			http.Error(w, "The answer could not be made: "+err.Error(), http.StatusInternalServerError)
			return
		}
		a.Parts = parts
	}
	status := http.StatusOK
	if !a.Saved {
		status = refusedStatus(out.Refused)
	}
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
	before, after := len(out.Before.found()), len(out.After.found())
	if before == after {
		return "Saved."
	}
	return fmt.Sprintf("Saved. Findings: %d, before it %d.", after, before)
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
func (s *site) changedParts(out outcome, seen string) (map[string]string, error) {
	stale := seen != out.Before.stamp
	if !out.Refused.any() && (stale || !maps.Equal(out.Before.fieldPaths(), out.After.fieldPaths())) {
		return s.wholeParts(out.After)
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

func (s *site) wholeParts(now *reading) (map[string]string, error) {
	sections, err := s.part("sections", now.sections())
	if err != nil {
		return nil, err
	}
	panel, err := s.part("panel", now.panel())
	if err != nil {
		return nil, err
	}
	problems, err := s.part("problems", problemLines(string(now.text), now.problems))
	return map[string]string{"sections": sections, "panel": panel, "problems": problems}, err
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
	for _, sec := range now.sections() {
		put(sec.ID+"-count", "count", sec)
		put(sec.ID+"-said", "said", sec.Said)
		for _, f := range sec.Fields {
			list[f.ID+"-notes"] = ""
			if f.Notes.Any() {
				put(f.ID+"-notes", "notes", f.Notes)
			}
		}
	}
	return list, failed
}
