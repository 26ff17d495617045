package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
)

type loginPage struct {
	Frame frame
	Next  string
	Wrong string
}

// private lets only those with a session in, when there is a passphrase.
func (s *site) private(next http.Handler) http.Handler {
	if s.config.Passphrase == "" {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		open := r.URL.Path == "/login" || r.URL.Path == "/show" || strings.HasPrefix(r.URL.Path, "/static/")
		switch {
		case open || s.sessions.valid(r):
			next.ServeHTTP(w, r)
		case r.Method == http.MethodGet || r.Method == http.MethodHead:
			http.Redirect(w, r, "/login?next="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
		default:
			http.Error(w, "Give the passphrase first: open this page again.", http.StatusUnauthorized)
		}
	})
}

func (s *site) login(w http.ResponseWriter, r *http.Request) {
	s.askPassphrase(w, r, http.StatusOK, localPath(r.URL.Query().Get("next")), "")
}

func (s *site) enter(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	next, from := localPath(r.PostForm.Get("next")), address(r)
	if wait := s.limiter.take(from); wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(int(wait/time.Second)+1))
		s.askPassphrase(w, r, http.StatusTooManyRequests, next, "Too many tries. Wait "+waitText(wait)+" and try again.")
		return
	}
	if !samePassphrase(r.PostForm.Get("passphrase"), s.config.Passphrase) {
		s.askPassphrase(w, r, http.StatusUnauthorized, next, "That is not the passphrase.")
		return
	}
	s.limiter.forgive(from)
	http.SetCookie(w, sessionFor(r, s.sessions.open(), sessionLength))
	http.Redirect(w, r, next, http.StatusSeeOther)
}

func (s *site) leave(w http.ResponseWriter, r *http.Request) {
	s.sessions.close(r)
	http.SetCookie(w, sessionFor(r, "", -time.Second))
	http.Redirect(w, r, "/login", http.StatusSeeOther)
}

// askPassphrase shows nothing of the rig, not even its name.
func (s *site) askPassphrase(w http.ResponseWriter, r *http.Request, status int, next, wrong string) {
	f := frame{Title: "Passphrase", Here: "login", Light: light(r), Back: "/login", Version: s.config.Version, Scripts: []string{"forget.js"}}
	s.render(w, status, "login", loginPage{Frame: f, Next: next, Wrong: wrong})
}

func waitText(wait time.Duration) string {
	if wait < time.Minute {
		return fmt.Sprintf("%d s", int(wait/time.Second)+1)
	}
	return fmt.Sprintf("%d min", int(wait/time.Minute)+1)
}
