package web

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/physics/cell"
)

// visitor sends requests to a site over a real folder, as a browser on this
// machine would.
type visitor struct {
	t       testing.TB
	handler http.Handler
	file    string
	clock   time.Time
	cookies []*http.Cookie
	header  map[string]string
	host    string
	from    string
}

// visit makes a site with an example rig in a folder of its own.
func visit(t testing.TB, example string, change ...func(*Config)) *visitor {
	t.Helper()
	text, err := examples.Read(example)
	if err != nil {
		t.Fatal(err)
	}
	return visitText(t, string(text), change...)
}

func visitText(t testing.TB, text string, change ...func(*Config)) *visitor {
	t.Helper()
	dir := t.TempDir()
	v := &visitor{t: t, file: filepath.Join(dir, "rig.yaml"), clock: time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC),
		host: "localhost:8000", from: "127.0.0.1:40000", header: map[string]string{}}
	v.write(text)
	config := Config{Path: dir, Version: "test", Figures: cell.Figures(), Now: func() time.Time { return v.clock }}
	for _, c := range change {
		c(&config)
	}
	handler, err := New(config)
	if err != nil {
		t.Fatal(err)
	}
	v.handler = handler
	t.Cleanup(v.close)
	return v
}

// close ends what runs behind the pages.
func (v *visitor) close() { v.handler.(*pages).Close() }

func (v *visitor) write(text string) {
	v.t.Helper()
	if err := os.WriteFile(v.file, []byte(text), 0o644); err != nil {
		v.t.Fatal(err)
	}
}

func (v *visitor) onDisk() string {
	v.t.Helper()
	text, err := os.ReadFile(v.file)
	if err != nil {
		v.t.Fatal(err)
	}
	return string(text)
}

func (v *visitor) do(r *http.Request) *http.Response {
	v.t.Helper()
	r.Host, r.RemoteAddr = v.host, v.from
	for k, value := range v.header {
		r.Header.Set(k, value)
	}
	for _, c := range v.cookies {
		r.AddCookie(c)
	}
	w := httptest.NewRecorder()
	v.handler.ServeHTTP(w, r)
	return w.Result()
}

func (v *visitor) get(path string) (int, string) {
	v.t.Helper()
	return v.read(v.do(httptest.NewRequest(http.MethodGet, path, nil)))
}

func (v *visitor) read(res *http.Response) (int, string) {
	v.t.Helper()
	body, err := io.ReadAll(res.Body)
	if err != nil {
		v.t.Fatal(err)
	}
	return res.StatusCode, string(body)
}

func (v *visitor) post(path string, form url.Values) *http.Response {
	v.t.Helper()
	r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return v.do(r)
}

// live changes one field as the form's module does.
func (v *visitor) live(path, value, was string) (int, liveAnswer) {
	v.t.Helper()
	v.header["Accept"] = "application/json"
	defer delete(v.header, "Accept")
	seen := stampOf([]byte(v.onDisk()))
	res := v.post("/rig/set", url.Values{"path": {path}, "value": {value}, "was": {was}, "seen": {seen}})
	var a liveAnswer
	status, body := v.read(res)
	if err := json.Unmarshal([]byte(body), &a); err != nil {
		v.t.Fatalf("answer %d %q: %v", status, body, err)
	}
	return status, a
}

func contains(t testing.TB, where, text string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(text, want) {
			t.Errorf("%s does not say %q", where, want)
		}
	}
}
