package web

import (
	"encoding/json"
	"net/http"
)

// The paper of day and of night, as in look.css: what a phone paints around the pages.
const (
	dayPaper   = "#f6f2e8"
	nightPaper = "#16140f"
)

// manifest tells a phone how to put the pages on its home screen (W3C Web
// Application Manifest).
type manifest struct {
	ID         string         `json:"id"`
	Name       string         `json:"name"`
	ShortName  string         `json:"short_name"`
	About      string         `json:"description"`
	Lang       string         `json:"lang"`
	Start      string         `json:"start_url"`
	Scope      string         `json:"scope"`
	Display    string         `json:"display"`
	Background string         `json:"background_color"`
	Theme      string         `json:"theme_color"`
	Icons      []manifestIcon `json:"icons"`
}

type manifestIcon struct {
	From    string `json:"src"`
	Sizes   string `json:"sizes"`
	Kind    string `json:"type"`
	Purpose string `json:"purpose"`
}

var manifestIcons = []manifestIcon{
	{"/static/icon-192.png", "192x192", "image/png", "any"},
	{"/static/icon-512.png", "512x512", "image/png", "any"},
	{"/static/icon-maskable-512.png", "512x512", "image/png", "maskable"},
}

// app gives out the manifest of this rig: on the home screen it has the rig's name
// and opens at the rig. Its scope is the whole server, so that the handbook and the
// other rigs open in the same window.
func (s *site) app(w http.ResponseWriter, _ *http.Request) {
	m := manifest{
		ID: s.at("/"), Name: "Ampstead", ShortName: "Ampstead", Lang: "en",
		About: "The house battery of a vehicle: settings, wiring, the year, the logbook.",
		Start: s.at("/"), Scope: "/", Display: "standalone",
		Background: dayPaper, Theme: dayPaper, Icons: manifestIcons,
	}
	if s.desk.path != "" {
		if name := s.desk.read().name(); name != "" {
			m.Name, m.ShortName = name+" · Ampstead", name
		}
	}
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		http.Error(w, "The manifest could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/manifest+json")
	_, _ = w.Write(text) // a visitor who left is no failure of ours
}
