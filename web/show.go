package web

import (
	"net/http"
	"time"

	"ampstead/quantity"
)

// What a visitor chose to see is kept in two cookies; nothing else is known
// about them.
const (
	unitsCookie = "ampstead_units"
	lightCookie = "ampstead_light"
	keepChoice  = 365 * 24 * time.Hour
)

var (
	unitChoices  = map[string]bool{"metric": true, "us": true}
	lightChoices = map[string]bool{"auto": true, "day": true, "night": true}
)

// show keeps a choice of units or light and goes back to the page.
func (h *hall) show(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	remember(w, unitsCookie, r.PostForm.Get("units"), unitChoices)
	remember(w, lightCookie, r.PostForm.Get("light"), lightChoices)
	http.Redirect(w, r, localPath(r.PostForm.Get("back")), http.StatusSeeOther)
}

func remember(w http.ResponseWriter, name, value string, allowed map[string]bool) {
	if !allowed[value] {
		return
	}
	http.SetCookie(w, &http.Cookie{
		Name: name, Value: value, Path: "/", MaxAge: int(keepChoice.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteLaxMode,
	})
}

// light returns "day" or "night" as chosen, or "" to follow the device.
func light(r *http.Request) string {
	c, err := r.Cookie(lightCookie)
	if err != nil || c.Value != "day" && c.Value != "night" {
		return ""
	}
	return c.Value
}

// units returns what to show numbers in: the visitor's choice, else the rig's,
// else the server's.
func (h *hall) units(r *http.Request, now *reading) quantity.System {
	if c, err := r.Cookie(unitsCookie); err == nil {
		if u, err := quantity.ParseSystem(c.Value); err == nil {
			return u
		}
	}
	if now != nil && now.file != nil {
		if u, err := quantity.ParseSystem(now.file.Rig.About.Units); err == nil {
			return u
		}
	}
	return h.config.Units
}

// look reads the file and shows it in the visitor's units.
func (s *site) look(r *http.Request) *reading {
	now := s.desk.read()
	return now.in(s.units(r, now))
}
