package web

import (
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
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
	v := newVisitor(t, filepath.Join(dir, "rig.yaml"))
	v.write(text)
	config := Config{Path: dir, Version: "test", Figures: cell.Figures(), Now: v.now, still: true}
	for _, c := range change {
		c(&config)
	}
	v.open(config)
	return v
}

func newVisitor(t testing.TB, file string) *visitor {
	return &visitor{t: t, file: file, clock: time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC),
		host: "localhost:8000", from: "127.0.0.1:40000", header: map[string]string{}}
}

func (v *visitor) now() time.Time { return v.clock }

// open makes the site that is visited.
func (v *visitor) open(config Config) {
	v.t.Helper()
	handler, err := New(config)
	if err != nil {
		v.t.Fatal(err)
	}
	v.handler = handler
	v.t.Cleanup(v.close)
}

// putExample writes an example rig into a folder.
func putExample(t testing.TB, folder, name string) {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "rig.yaml"), text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// tree lists every file around the rig with what it holds, in short.
func (v *visitor) tree() string {
	v.t.Helper()
	var list strings.Builder
	root := filepath.Dir(filepath.Dir(v.file))
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		fmt.Fprintf(&list, "%s %s\n", strings.TrimPrefix(path, root), stampOf(text))
		return err
	})
	if err != nil {
		v.t.Fatal(err)
	}
	return list.String()
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
