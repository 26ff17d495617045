package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"

	"ampstead/quantity"
	"ampstead/sheet"
)

//go:embed templates
var templateFiles embed.FS

// viewNames lists the pages; each has a file of that name which defines "main".
var viewNames = []string{"home", "findings", "form", "text", "history", "compare", "rigs", "start", "choose", "prove", "plan", "fit", "wire", "drill", "travel", "keep", "live", "reading", "book", "figures", "figure", "checks", "phone", "login", "trouble", "unsaved", "missing"}

// frame is what the frame around every page needs.
type frame struct {
	Title    string
	Here     string // key of the page in Nav
	Rig      string // name of the rig
	Nav      []link
	Light    string // "day", "night" or "" to follow the device
	US       bool
	Back     string // where the choices of units and light lead back to
	Private  bool   // behind a passphrase: offers to leave
	Version  string
	Workshop bool // there are other rigs beside this one
	Scripts  []string
	Refresh  bool // without scripts the page asks again by itself
}

type link struct{ Key, To, Text string }

// parseShared parses the parts that every page is made over.
func parseShared() (*template.Template, error) {
	shared := sheet.Templates().Funcs(template.FuncMap{"id": elementID, "sentences": sentences, "choice": choiceOf, "at": func() string { return "" }})
	if _, err := shared.ParseFS(templateFiles, "templates/frame.html", "templates/parts.html", "templates/livenow.html", "templates/versions.html"); err != nil {
		return nil, fmt.Errorf("page templates: %w", err)
	}
	return shared, nil
}

// render writes a page only when all of it could be made.
func (s *site) render(w http.ResponseWriter, status int, view string, data any) {
	var page bytes.Buffer
	if err := s.views.execute(&page, view, "frame", data); err != nil {
		http.Error(w, "This page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = page.WriteTo(w) // a visitor who left is no failure of ours
}

// part renders one named template of the form's view, for a live answer.
func (s *site) part(name string, data any) (string, error) { return s.partOf("form", name, data) }

// partOf renders one named template of a view.
func (s *site) partOf(view, name string, data any) (string, error) {
	var out bytes.Buffer
	err := s.views.execute(&out, view, name, data)
	return out.String(), err
}

func (s *site) frame(r *http.Request, here, title string, now *reading) frame {
	if s.desk.path == "" {
		return s.hall.frame(r, here, title)
	}
	f := frame{
		Title: title, Here: here, Rig: now.name(), Nav: s.nav(now), Light: light(r),
		US: s.units(r, now) == quantity.US, Back: s.at(r.URL.Path),
		Private: s.config.Passphrase != "", Version: s.config.Version, Workshop: s.workshop != nil,
	}
	return f
}

// stages are the pages of the job in their order, and the book.
var stages = []struct{ key, title string }{
	{"choose", "Choose"}, {"prove", "Prove"}, {"fit", "Fit"}, {"wire", "Wire"}, {"drill", "Drill"}, {"travel", "Travel"}, {"keep", "Keep"}, {"book", "Book"},
}

// nav lists the stages left to right as the job goes, and the handbook last.
// Pages that need a rig that can be read are left out while there is none.
func (s *site) nav(now *reading) []link {
	nav := []link{{"overview", s.at("/"), "Home"}, {"rig", s.at("/rig"), "Rig"}}
	if now.result != nil {
		for _, stage := range stages {
			nav = append(nav, link{stage.key, s.at("/" + stage.key), stage.title})
		}
	}
	if len(s.config.Figures) > 0 {
		nav = append(nav, link{"figures", s.at("/figures"), "Handbook"})
	}
	return nav
}

type missingPage struct{ Frame frame }

func (s *site) missing(w http.ResponseWriter, r *http.Request) {
	f := s.frame(r, "", "No such page", s.desk.read())
	f.Back = "/"
	s.render(w, http.StatusNotFound, "missing", missingPage{f})
}
