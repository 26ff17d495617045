package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"ampstead/secret"
)

type loginPage struct {
	Frame frame
	Next  string
	Wrong string
}

// private lets only those with a session in, when there is a passphrase.
func (h *hall) private(next http.Handler) http.Handler {
	if h.config.Passphrase == "" {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		open := r.URL.Path == "/login" || r.URL.Path == "/show" || strings.HasPrefix(r.URL.Path, "/static/")
		switch {
		case open || h.sessions.valid(r):
			next.ServeHTTP(w, r)
		case r.Method == http.MethodGet || r.Method == http.MethodHead:
			http.Redirect(w, r, "/login?next="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
		default:
			http.Error(w, "Give the passphrase first: open this page again.", http.StatusUnauthorized)
		}
	})
}

func (h *hall) login(w http.ResponseWriter, r *http.Request) {
	h.askPassphrase(w, r, http.StatusOK, localPath(r.URL.Query().Get("next")), "")
}

func (h *hall) enter(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	next, from := localPath(r.PostForm.Get("next")), address(r)
	if wait := h.limiter.take(from); wait > 0 {
		h.askLater(w, r, next, wait)
		return
	}
	right, err := secret.Verify(r.Context(), h.config.Passphrase, r.PostForm.Get("passphrase"))
	if err != nil { // the hash was read before, so the visitor left while it was reckoned
		h.askLater(w, r, next, time.Second)
		return
	}
	if !right {
		h.askPassphrase(w, r, http.StatusUnauthorized, next, "That is not the passphrase.")
		return
	}
	h.limiter.forgive(from)
	h.sessions.close(r) // whoever knew the one before has nothing of the new one
	http.SetCookie(w, sessionFor(r, h.sessions.open(), sessionLength))
	http.Redirect(w, r, next, http.StatusSeeOther)
}

// askLater sends someone away who tried too often, or while too many do.
func (h *hall) askLater(w http.ResponseWriter, r *http.Request, next string, wait time.Duration) {
	w.Header().Set("Retry-After", strconv.Itoa(int(wait/time.Second)+1))
	h.askPassphrase(w, r, http.StatusTooManyRequests, next, "Too many tries. Wait "+waitText(wait)+" and try again.")
}

func (h *hall) leave(w http.ResponseWriter, r *http.Request) {
	h.sessions.close(r)
	http.SetCookie(w, sessionFor(r, "", -time.Second))
	http.Redirect(w, r, "/login", http.StatusSeeOther)
}

// askPassphrase shows nothing of the rig, not even its name.
func (h *hall) askPassphrase(w http.ResponseWriter, r *http.Request, status int, next, wrong string) {
	f := frame{Title: "Passphrase", Here: "login", Light: light(r), Back: "/login", Version: h.config.Version, Scripts: []string{"forget.js"}}
	h.render(w, status, "login", loginPage{Frame: f, Next: next, Wrong: wrong})
}

func waitText(wait time.Duration) string {
	if wait < time.Minute {
		return fmt.Sprintf("%d s", int(wait/time.Second)+1)
	}
	return fmt.Sprintf("%d min", int(wait/time.Minute)+1)
}
