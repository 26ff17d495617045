package web

import (
	"errors"
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// policy is the content policy of every page: nothing but our own style sheet,
// modules and drawings; no frames; forms only to ourselves.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; " +
	"img-src 'self' data:; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// Most bytes of a request body, by what it carries.
const (
	maxForm = 256 << 10
	maxText = 1 << 20
)

// guard wraps the pages with everything that is checked before a page sees a
// request: host name, headers, origin and size.
func guard(next http.Handler, anyHost bool) http.Handler {
	origin := http.NewCrossOriginProtection()
	origin.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "This request came from another site and was refused.", http.StatusForbidden)
	}))
	checked := origin.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		setHeaders(w.Header())
		if !anyHost && !loopbackHost(r.Host) {
			http.Error(w, "Ask for this page by the name localhost or the address 127.0.0.1.", http.StatusMisdirectedRequest)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, bodyLimit(r))
		checked.ServeHTTP(w, r)
	})
}

func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	// Not no-referrer: a browser would then send "Origin: null" with our own
	// forms, which the origin check has to refuse.
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

func bodyLimit(r *http.Request) int64 {
	switch pageOf(r.URL.Path) {
	case "/rig/text":
		return maxText
	case "/keep/import":
		return mostTable
	case "/prove":
		return mostLog + maxForm // the page itself draws the line at a log
	}
	return maxForm
}

// pageOf is the path without the part that says which rig of the workshop.
func pageOf(path string) string {
	below, inside := strings.CutPrefix(path, "/rigs/")
	if !inside {
		return path
	}
	if _, page, ok := strings.Cut(below, "/"); ok {
		return "/" + page
	}
	return path
}

// loopbackHost reports whether a Host header names this machine itself. A site
// elsewhere that points its own name at 127.0.0.1 sends its own name here.
func loopbackHost(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.Trim(name, "[]")
	if strings.EqualFold(name, "localhost") {
		return true
	}
	addr, err := netip.ParseAddr(name)
	return err == nil && addr.IsLoopback()
}

// readForm parses a posted form; when it cannot, it answers and reports false.
func readForm(w http.ResponseWriter, r *http.Request) bool {
	err := r.ParseForm()
	if err == nil {
		return true
	}
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		http.Error(w, "That is more than this page takes.", http.StatusRequestEntityTooLarge)
		return false
	}
	http.Error(w, "The form could not be read.", http.StatusBadRequest)
	return false
}

// localPath returns a path on this server to go back to, or "/" for anything
// that could lead elsewhere.
func localPath(to string) string {
	if !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") || strings.ContainsAny(to, "\\\r\n\t") {
		return "/"
	}
	return to
}
