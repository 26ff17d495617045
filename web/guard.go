package web

import (
	"errors"
	"log"
	"mime"
	"net/http"
	"runtime/debug"
	"strings"
)

// policy is the content policy of every page: nothing but our own style sheet,
// modules and drawings; no frames; forms only to ourselves.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; " +
	"img-src 'self' data:; manifest-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// Most bytes of a request body, by what it carries.
const (
	maxForm = 256 << 10
	maxText = 1 << 20
)

// guard wraps the pages with everything that is checked before a page sees a
// request: host name, headers, origin and size.
func guard(next http.Handler, hosts *hosts) http.Handler {
	origin := http.NewCrossOriginProtection()
	origin.SetDenyHandler(http.HandlerFunc(fromElsewhere))
	checked := origin.Handler(calm(next))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		setHeaders(w.Header())
		switch {
		case !hosts.answers(r.Host):
			http.Error(w, hosts.notHere(), http.StatusMisdirectedRequest)
		case embedded(r):
			fromElsewhere(w, r)
		case r.ContentLength > bodyLimit(r):
			refuseSize(w, r)
		default:
			r.Body = http.MaxBytesReader(w, r.Body, bodyLimit(r))
			checked.ServeHTTP(w, r)
		}
	})
}

// refuseSize answers in the kind that was sent, so that a module can show it.
func refuseSize(w http.ResponseWriter, r *http.Request) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err == nil && kind == "application/json" {
		refuse(w, http.StatusRequestEntityTooLarge, tooMuch)
		return
	}
	http.Error(w, tooMuch, http.StatusRequestEntityTooLarge)
}

const tooMuch = "That is more than this page takes."

func fromElsewhere(w http.ResponseWriter, _ *http.Request) {
	http.Error(w, "This request came from another site and was refused.", http.StatusForbidden)
}

// embedded reports whether a page of another site asks for something without the
// person going there: it could have this machine reckon, or learn that it is there.
func embedded(r *http.Request) bool {
	site := r.Header.Get("Sec-Fetch-Site")
	return (site == "cross-site" || site == "same-site") && r.Header.Get("Sec-Fetch-Mode") != "navigate"
}

// calm answers in place of a page that failed inside; one such page ends no other,
// and the visitor learns nothing of the program's insides.
func calm(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			switch failure := recover(); failure {
			case nil:
			case http.ErrAbortHandler:
				panic(failure)
			default:
				log.Printf("ampstead: %s %q failed inside: %v\n%s", r.Method, r.URL.Path, failure, debug.Stack())
				http.Error(w, "This page failed inside Ampstead. What was stored before is still stored; go back and try another way.", http.StatusInternalServerError)
			}
		}()
		next.ServeHTTP(w, r)
	})
}

func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY") // for browsers that know no frame-ancestors
	// Not no-referrer: a browser would then send "Origin: null" with our own
	// forms, which the origin check has to refuse.
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
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

// readForm parses a posted form; when it cannot, it answers and reports false.
func readForm(w http.ResponseWriter, r *http.Request) bool {
	err := r.ParseForm()
	if err == nil {
		return true
	}
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		http.Error(w, tooMuch, http.StatusRequestEntityTooLarge)
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
