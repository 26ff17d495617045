package web

import (
	"bytes"
	"html/template"
	"net/http"

	"ampstead/sheet"
)

type fitPage struct {
	Frame frame
	Body  template.HTML
}

// fitBody is the page but for its frame.
type fitBody struct {
	Tally tally
	Sheet *sheet.Model

	places places
}

// To leads to where a setting is written down.
func (b fitBody) To(path string) string { return b.places.link(path) }

func (s *site) fit(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	body, err := s.fitBody(now)
	if err != nil {
		http.Error(w, "This page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	s.render(w, http.StatusOK, "fit", fitPage{s.frame(r, "fit", "Fit", now), body})
}

// fitBody renders the body once for each reading: it has the drawings.
func (s *site) fitBody(now *reading) (template.HTML, error) {
	model := now.sheet()
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.fit == "" {
		data := fitBody{tallyOf(now.found()), model, now.places()}
		var out bytes.Buffer
		if err := s.views.execute(&out, "fit", "fit-body", data); err != nil {
			return "", err
		}
		now.fit = template.HTML(out.String()) // written by the escaping template above
	}
	return now.fit, nil
}
