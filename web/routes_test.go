package web

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ampstead/physics/cell"
)

// route is one pattern that is answered, with an address that it matches.
type route struct{ pattern, method, path string }

// place is what stands for a wildcard of a pattern.
var wildcard = regexp.MustCompile(`\{([a-z]*)(\.\.\.|\$)?\}`)

func placeOf(pattern string) string {
	return wildcard.ReplaceAllStringFunc(pattern, func(w string) string {
		switch w {
		case "{$}":
			return ""
		case "{slug}":
			return "dipper"
		case "{rest...}":
			return "fit"
		}
		return "x"
	})
}

// everyRoute lists what a site answers: each pattern as registered, those without a
// method by GET and by POST, and the pages of a rig once more below /rigs.
func everyRoute(h *hall) []route {
	var list []route
	for _, pattern := range h.paths {
		method, path, ok := strings.Cut(placeOf(pattern), " ")
		methods := []string{method}
		if !ok {
			path, methods = method, []string{http.MethodGet, http.MethodPost}
		}
		for _, m := range methods {
			list = append(list, route{pattern, m, path})
			if !slices.Contains(hallOnly, path) && !strings.HasPrefix(path, "/rigs") && !strings.HasPrefix(path, "/static/") {
				list = append(list, route{pattern, m, "/rigs/dipper" + path})
			}
		}
	}
	return list
}

// hallOnly are pages of the whole server: below a rig's address there are none.
var hallOnly = []string{"/show", "/login", "/logout", "/start", "/phone", "/app.webmanifest"}

// openRoutes are answered without a session: they tell nothing of a rig.
var openRoutes = []string{"GET /static/{name}", "POST /show", "GET /login", "POST /login"}

// visitAll is a workshop of two rigs with every page there is, behind a passphrase.
func visitAll(t testing.TB, change ...func(*Config)) *visitor {
	t.Helper()
	return visitRigs(t, append([]func(*Config){shared, standIns}, change...)...)
}

// visitRigs is a workshop of curlew, which is at "/", and dipper.
func visitRigs(t testing.TB, change ...func(*Config)) *visitor {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "workshop")
	for _, name := range []string{"curlew", "dipper"} {
		putExample(t, filepath.Join(folder, name), name)
	}
	v := newVisitor(t, filepath.Join(folder, "curlew", "rig.yaml"))
	config := Config{Path: filepath.Join(folder, "curlew"), Workshop: folder, Version: "test", Figures: cell.Figures(), Now: v.now, still: true}
	for _, c := range change {
		c(&config)
	}
	v.open(config)
	return v
}

// askAll asks for every route with a fresh request and hands the answers on.
func (v *visitor) askAll(ask func(route) *http.Request, got func(route, *http.Response, string)) {
	v.t.Helper()
	routes := everyRoute(v.handler.(*pages).hall)
	if len(routes) < 80 {
		v.t.Fatalf("only %d routes: the list is not whole", len(routes))
	}
	for _, one := range routes {
		res := v.do(ask(one))
		body, err := io.ReadAll(res.Body)
		if err != nil {
			v.t.Fatal(err)
		}
		got(one, res, string(body))
	}
}

// wanted are the headers that every answer carries.
var wanted = map[string]string{
	"Content-Security-Policy":      policy,
	"X-Content-Type-Options":       "nosniff",
	"X-Frame-Options":              "DENY",
	"Referrer-Policy":              "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Permissions-Policy":           "camera=(), geolocation=(), microphone=()",
}

// lacks returns the header that is not as it has to be, or "".
func lacks(h http.Header) string {
	for name, want := range wanted {
		if got := h.Values(name); len(got) != 1 || got[0] != want {
			return fmt.Sprintf("%s is %q", name, got)
		}
	}
	return ""
}

func plainRequest(one route) *http.Request {
	r := httptest.NewRequest(one.method, one.path, nil)
	if one.method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	return r
}

// Every HandleFunc in the program's text is in the list that the tests below walk,
// so that a new page is walked without anyone thinking of it.
func TestTheListOfRoutesIsWhole(t *testing.T) {
	v := visitAll(t)
	listed := v.handler.(*pages).hall.paths
	sources, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	written := regexp.MustCompile(`\.Handle(?:Func)?\("([^"]+)"`)
	found := 0
	for _, name := range sources {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range written.FindAllStringSubmatch(string(text), -1) {
			if m[1] == "/" { // hands on, or says that there is no such page
				continue
			}
			if found++; !slices.Contains(listed, m[1]) {
				t.Errorf("%s: %q is answered but not in the list", name, m[1])
			}
		}
	}
	if found < 40 {
		t.Errorf("found only %d", found)
	}
}

func TestEveryRouteRefusesOtherSites(t *testing.T) {
	v := visitAll(t)
	v.cookies = v.try(phrase).Cookies()
	before := v.tree()
	for name, header := range map[string]map[string]string{
		"cross-site":   {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Origin": "https://example.org"},
		"same-site":    {"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "navigate", "Origin": "http://other.localhost:8000"},
		"origin alone": {"Origin": "http://example.org"},
		"null origin":  {"Origin": "null"},
	} {
		v.askAll(func(one route) *http.Request {
			r := httptest.NewRequest(http.MethodPost, one.path, strings.NewReader("path=about.note&value=x&text=x"))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			for k, value := range header {
				r.Header.Set(k, value)
			}
			return r
		}, func(one route, res *http.Response, _ string) {
			if res.StatusCode != http.StatusForbidden || lacks(res.Header) != "" {
				t.Errorf("POST %s from %s: %d, %s", one.path, name, res.StatusCode, lacks(res.Header))
			}
		})
	}
	if after := v.tree(); after != before {
		t.Errorf("something was written:\n%s\nbefore:\n%s", after, before)
	}
}

// A picture or script tag of another site cannot make this machine reckon.
func TestEveryRouteRefusesToBeEmbedded(t *testing.T) {
	v := visitAll(t)
	v.cookies = v.try(phrase).Cookies()
	v.askAll(func(one route) *http.Request {
		r := httptest.NewRequest(http.MethodGet, one.path, nil)
		r.Header.Set("Sec-Fetch-Site", "cross-site")
		r.Header.Set("Sec-Fetch-Mode", "no-cors")
		return r
	}, func(one route, res *http.Response, _ string) {
		if res.StatusCode != http.StatusForbidden {
			t.Errorf("%s: %d", one.path, res.StatusCode)
		}
	})
	link := httptestGet("/fit")
	link.Header.Set("Sec-Fetch-Site", "cross-site")
	link.Header.Set("Sec-Fetch-Mode", "navigate")
	if res := v.do(link); res.StatusCode != http.StatusOK {
		t.Errorf("a link from elsewhere: %d", res.StatusCode)
	}
}

func TestEveryRouteAsksForThePassphrase(t *testing.T) {
	v := visitAll(t)
	before := v.tree()
	v.askAll(plainRequest, func(one route, res *http.Response, body string) {
		if lack := lacks(res.Header); lack != "" {
			t.Errorf("%s %s: %s", one.method, one.path, lack)
		}
		if strings.Contains(body, "Curlew") || strings.Contains(body, "Dipper") {
			t.Errorf("%s %s tells of a rig", one.method, one.path)
		}
		switch open := slices.Contains(openRoutes, one.pattern); {
		case open && res.StatusCode >= 500:
			t.Errorf("%s %s: %d", one.method, one.path, res.StatusCode)
		case open:
		case one.method == http.MethodGet:
			if to := res.Header.Get("Location"); res.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/login?next=") {
				t.Errorf("GET %s: %d to %q", one.path, res.StatusCode, to)
			}
		case res.StatusCode != http.StatusUnauthorized:
			t.Errorf("%s %s: %d", one.method, one.path, res.StatusCode)
		}
	})
	if after := v.tree(); after != before {
		t.Errorf("something was written:\n%s\nbefore:\n%s", after, before)
	}
}

func TestEveryRouteChecksTheHostName(t *testing.T) {
	for name, v := range map[string]*visitor{"on the network": visitAll(t), "on this machine": visitRigs(t, standIns)} {
		if name == "on the network" {
			v.cookies = v.try(phrase).Cookies()
		}
		for _, host := range []string{"example.org", "127.0.0.1.example.org:8000", ""} {
			v.host = host
			v.askAll(plainRequest, func(one route, res *http.Response, body string) {
				if res.StatusCode != http.StatusMisdirectedRequest || lacks(res.Header) != "" || strings.Contains(body, "Curlew") {
					t.Errorf("%s, host %q: %s %s: %d, %s", name, host, one.method, one.path, res.StatusCode, lacks(res.Header))
				}
			})
		}
	}
}

func TestEveryRouteBoundsWhatIsSent(t *testing.T) {
	v := visitAll(t)
	v.cookies = v.try(phrase).Cookies()
	before := v.tree()
	v.askAll(func(one route) *http.Request {
		r := plainRequest(route{one.pattern, http.MethodPost, one.path})
		r.ContentLength = bodyLimit(r) + 1 // as the header says; nothing is read
		return r
	}, func(one route, res *http.Response, _ string) {
		if res.StatusCode != http.StatusRequestEntityTooLarge || lacks(res.Header) != "" {
			t.Errorf("POST %s: %d, %s", one.path, res.StatusCode, lacks(res.Header))
		}
	})
	// Without a length it is found out by reading.
	v.askAll(func(one route) *http.Request {
		r := httptest.NewRequest(http.MethodPost, one.path, nil)
		long := min(bodyLimit(r), mostTable) // half a gigabyte of log is too long for a test
		r.Body = io.NopCloser(io.MultiReader(strings.NewReader("path=about.note&value=x&text="), io.LimitReader(letters{}, long)))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		r.ContentLength = -1
		return r
	}, func(one route, res *http.Response, _ string) {
		takesForm := strings.HasPrefix(one.pattern, "POST ") && !slices.Contains(noForm, pageOf(one.path))
		if takesForm && res.StatusCode != http.StatusRequestEntityTooLarge || res.StatusCode >= 500 || lacks(res.Header) != "" {
			t.Errorf("POST %s without a length: %d, %s", one.path, res.StatusCode, lacks(res.Header))
		}
		if one.path == "/logout" { // the walk leaves by the way
			v.cookies = nil
			v.clock = v.clock.Add(longestWait)
			v.cookies = v.try(phrase).Cookies()
		}
	})
	if after := v.tree(); after != before {
		t.Errorf("something was written:\n%s\nbefore:\n%s", after, before)
	}
}

// noForm are pages that take no plain form: these refuse it for what it is.
var noForm = []string{"/logout", "/prove", "/keep/readings", "/keep/import"}

// letters never end.
type letters struct{}

func (letters) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

// Whatever a page leads on to lies on this server.
func TestEveryRouteLeadsNowhereElse(t *testing.T) {
	v := visitAll(t)
	v.cookies = v.try(phrase).Cookies()
	for _, more := range []string{"", "//example.org/", "/%5cexample.org", "?next=//example.org&back=//example.org&to=https://example.org"} {
		v.askAll(func(one route) *http.Request {
			r := plainRequest(route{one.pattern, http.MethodGet, "/"})
			r.URL.Path, r.URL.RawPath = one.path, ""
			path, query, _ := strings.Cut(more, "?")
			r.URL.Path, r.URL.RawQuery = r.URL.Path+strings.ReplaceAll(path, "%5c", `\`), query
			return r
		}, func(one route, res *http.Response, _ string) {
			if to := res.Header.Get("Location"); to != "" && !ownAddress(to) {
				t.Errorf("%s%s leads to %q", one.path, more, to)
			}
		})
	}
}

// ownAddress reports whether a browser stays on this server by going there.
func ownAddress(to string) bool {
	return strings.HasPrefix(to, "/") && !strings.HasPrefix(to, "//") && !strings.HasPrefix(to, `/\`)
}
