package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
)

func httptestGet(path string) *http.Request { return httptest.NewRequest(http.MethodGet, path, nil) }

func TestEveryAnswerCarriesThePolicy(t *testing.T) {
	v := visit(t, "curlew-draft")
	for _, path := range append(allPages, "/no-such-page", "/static/style.css", "/static/rig.js") {
		h := v.do(httptestGet(path)).Header
		csp := h.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'", "base-uri 'none'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("%s: policy %q lacks %s", path, csp, want)
			}
		}
		if strings.Contains(csp, "unsafe-") {
			t.Errorf("%s: policy %q", path, csp)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") == "" {
			t.Errorf("%s: headers %v", path, h)
		}
	}
}

// What the policy forbids must not be in the pages either: no inline style, no
// inline script, no handler attribute.
func TestPagesNeedNothingThePolicyForbids(t *testing.T) {
	v := visit(t, "curlew-draft")
	for _, path := range allPages {
		if path == "/book/read" {
			continue
		}
		_, body := v.get(path)
		for _, forbidden := range []string{"<style", " style=\"", "<script>", " onclick=", " onchange=", "javascript:", "http://www.", "https://"} {
			if strings.Contains(strings.ReplaceAll(body, "http://www.w3.org/2000/svg", ""), forbidden) {
				t.Errorf("%s contains %q", path, forbidden)
			}
		}
	}
}

func TestPostsFromElsewhereAreRefused(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for name, header := range map[string]map[string]string{
		"cross-site":   {"Sec-Fetch-Site": "cross-site", "Origin": "https://example.org"},
		"same-site":    {"Sec-Fetch-Site": "same-site", "Origin": "http://other.localhost:8000"},
		"origin alone": {"Sec-Fetch-Site": "", "Origin": "http://example.org"},
		"null origin":  {"Sec-Fetch-Site": "", "Origin": "null"},
	} {
		for _, path := range []string{"/rig/set", "/rig/text", "/show"} {
			v.header = header
			res := v.post(path, url.Values{"path": {equalise}, "value": {"off"}, "text": {"x"}})
			if res.StatusCode != http.StatusForbidden {
				t.Errorf("%s to %s: status %d", name, path, res.StatusCode)
			}
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestOwnFormsWithoutFetchMetadata(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.header = map[string]string{"Sec-Fetch-Site": "", "Origin": "http://localhost:8000"}
	if res := v.post("/rig/set", form("", equalise, "62.0 V", "off")); res.StatusCode != http.StatusSeeOther {
		t.Errorf("status %d", res.StatusCode)
	}
}

func TestBodiesAreBounded(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for path, size := range map[string]int{"/rig/set": maxForm, "/rig/text": maxText, "/show": maxForm} {
		res := v.post(path, url.Values{"text": {strings.Repeat("x", size)}, "path": {"about.note"}, "value": {"x"}})
		if res.StatusCode != http.StatusRequestEntityTooLarge {
			t.Errorf("%s: status %d", path, res.StatusCode)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestNoPathLeavesTheStaticFiles(t *testing.T) {
	v := visit(t, "curlew")
	for _, path := range []string{
		"/static/../web.go", "/static/..%2fweb.go", "/static/%2e%2e/rig.yaml", "/static/..%5crig.yaml", "/static/", "/static/.",
		"/static/style.css/..", "/rig.yaml", "/../rig.yaml", "/figures/..%2f..%2frig.yaml", "/book/read/../../rig.yaml", "/static/%00",
	} {
		status, body := v.get(path)
		if status == http.StatusOK && (strings.Contains(body, "package web") || strings.Contains(body, "cell_capacity:")) || status >= 500 {
			t.Errorf("%s: status %d", path, status)
		}
	}
	for _, name := range []string{"style.css", "rig.js", "live.js", "text.js", "mark.svg"} {
		if status, body := v.get("/static/" + name); status != http.StatusOK || body == "" {
			t.Errorf("%s: status %d", name, status)
		}
	}
}

func TestMethods(t *testing.T) {
	v := visit(t, "curlew")
	for _, path := range []string{"/", "/fit", "/rig", "/book/read"} {
		if res := v.post(path, nil); res.StatusCode == http.StatusOK {
			t.Errorf("POST %s answered 200", path)
		}
	}
	if status, _ := v.get("/rig/set"); status == http.StatusOK {
		t.Error("GET /rig/set answered 200")
	}
}

func TestLocalPath(t *testing.T) {
	for to, want := range map[string]string{
		"/fit": "/fit", "/rig?x=1#y": "/rig?x=1#y", "": "/", "//evil": "/", "/\\evil": "/", "https://evil": "/", "fit": "/", "/a\r\nSet-Cookie: x": "/", "/\t/evil": "/",
	} {
		if got := localPath(to); got != want {
			t.Errorf("localPath(%q) = %q, want %q", to, got, want)
		}
	}
}
