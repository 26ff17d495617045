package web

import (
	"bytes"
	"io"
	"io/fs"
	"log"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/textproto"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/store"
)

// fuzzed is a workshop in a folder with something beside it that nobody may touch.
type fuzzed struct {
	*visitor
	root, outside string
	text          []byte // of both rigs' file at the start, by name
	other         []byte
	tokens        string
}

const (
	outsideText   = "not for the pages\n"
	fuzzedCommand = "/usr/local/bin/ring --loud"
)

func newFuzzed(f *testing.F) *fuzzed {
	root := f.TempDir()
	folder := filepath.Join(root, "workshop")
	temp := filepath.Join(root, "tmp")
	f.Setenv("TMPDIR", temp)
	x := &fuzzed{root: root, outside: filepath.Join(root, "rig.yaml")}
	for _, dir := range []string{temp, filepath.Join(folder, "curlew"), filepath.Join(folder, "dipper")} {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			f.Fatal(err)
		}
	}
	text, err := examples.Read("curlew")
	if err != nil {
		f.Fatal(err)
	}
	x.text = append(text, []byte(liveSection+"  command: "+fuzzedCommand+"\n")...)
	if x.other, err = examples.Read("dipper"); err != nil {
		f.Fatal(err)
	}
	x.visitor = newVisitor(f, filepath.Join(folder, "curlew", "rig.yaml"))
	x.restore(f)
	if err := os.WriteFile(x.outside, []byte(outsideText), 0o644); err != nil {
		f.Fatal(err)
	}
	config := Config{Path: filepath.Join(folder, "curlew"), Workshop: folder, Version: "test", Figures: cell.Figures(), Now: x.now, mostLog: 64 << 10}
	shared(&config)
	standIns(&config)
	x.open(config)
	x.from = "127.0.0.1:40000"
	x.tokens = x.handler.(*pages).hall.sessions.open()
	return x
}

// restore puts both rig files back as they were.
func (x *fuzzed) restore(t testing.TB) {
	t.Helper()
	for path, text := range map[string][]byte{x.file: x.text, x.dipper(): x.other} {
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func (x *fuzzed) dipper() string {
	return filepath.Join(filepath.Dir(filepath.Dir(x.file)), "dipper", "rig.yaml")
}

// request makes one of random parts, or nil when net/http would not let it through.
func (x *fuzzed) request(method, path, query, header, value, kind string, body []byte, inside bool) *http.Request {
	if !token(method) || !token(header) || strings.ContainsAny(value+kind, "\r\n\x00") || !strings.HasPrefix(path, "/") {
		return nil
	}
	at, err := url.ParseRequestURI(path)
	if err != nil || at.Host != "" {
		return nil
	}
	at.RawQuery = query
	r := httptest.NewRequest(http.MethodGet, "/", bytes.NewReader(body))
	r.Method, r.URL, r.RequestURI = method, at, at.RequestURI()
	r.Header.Set("Content-Type", kind)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	r.Header.Add(header, value)
	if inside {
		r.AddCookie(&http.Cookie{Name: sessionCookie, Value: x.tokens})
	}
	r.Host, r.RemoteAddr = x.host, x.from
	return r
}

// token reports whether text can be a method or the name of a header.
func token(text string) bool {
	return text != "" && len(text) < 40 && strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") == ""
}

// FuzzHandlers sends random requests to every page. None makes a page fail, every
// answer has the headers, the rig files stay rigs and their commands what they were,
// and nothing outside the rigs' folders is touched.
func FuzzHandlers(f *testing.F) {
	log.SetOutput(io.Discard) // what failed inside is told by its status
	f.Cleanup(func() { log.SetOutput(os.Stderr) })
	x := newFuzzed(f)
	for _, one := range everyRoute(x.handler.(*pages).hall) {
		f.Add(one.method, one.path, seedQuery, "Accept", "application/json", "application/x-www-form-urlencoded", []byte(seedForm), true)
		if strings.HasPrefix(one.path, "/rigs/") {
			continue // the same pages once more
		}
		f.Add(one.method, one.path, "", "Cookie", "ampstead_units=us", "application/json", []byte(`{"readings":[{"id":"p1","taken":"2026-11-19T09:00:00Z","bank_v":47}]}`), true)
		f.Add(one.method, one.path, "", "Range", "bytes=0-4", "text/plain", []byte{}, false)
		kind, body := seedUpload(f)
		f.Add(one.method, one.path, "", "X-Forwarded-Host", "example.org", kind, body, true)
	}
	f.Add("POST", "/rig/text", "", "Accept", "text/html", "application/x-www-form-urlencoded", []byte(url.Values{"text": {string(x.text)}, "seen": {stampOf(x.text)}}.Encode()), true)
	f.Add("GET", "/rigs/..%2f..%2ftmp/fit", "", "Accept", "*/*", "", []byte{}, true)
	f.Fuzz(func(t *testing.T, method, path, query, header, value, kind string, body []byte, inside bool) {
		r := x.request(method, path, query, header, value, kind, body, inside)
		if r == nil {
			t.Skip()
		}
		x.clock = x.clock.Add(time.Second)
		if strings.HasSuffix(r.URL.Path, "/keep/live/events") { // has no end of its own
			t.Skip()
		}
		w := httptest.NewRecorder()
		x.handler.ServeHTTP(w, r)
		res := w.Result()
		x.judge(t, r, res, w.Body.String())
		x.clean(t)
	})
}

const seedQuery = "id=p1&test=x&log=x&from=1&days=7&series=x&span=week&next=/fit&was=1&sort=x"

const seedForm = "path=bank.mass&value=51+kg&was=52+kg&section=bank&what=balanced&name=bench&step=1&error=2&do=start&id=p1&group.1=3.9&passphrase=glue+pot&next=/fit&back=/fit&light=night&units=us&designs=200&budget=2500+EUR&text=x&seen=x"

// seedUpload is a file as a form sends it.
func seedUpload(f *testing.F) (kind string, body []byte) {
	var out bytes.Buffer
	form := multipart.NewWriter(&out)
	if err := form.SetBoundary("seam"); err != nil {
		f.Fatal(err)
	}
	for _, name := range []string{"log", "table"} {
		part, err := form.CreatePart(textproto.MIMEHeader{"Content-Disposition": {`form-data; name="` + name + `"; filename="../../rig.yaml"`}, "Content-Type": {"text/csv"}})
		if err != nil {
			f.Fatal(err)
		}
		if _, err := io.WriteString(part, "taken,group_1_v\n2026-11-19T09:00:00Z,3.9\n"); err != nil {
			f.Fatal(err)
		}
	}
	if err := form.Close(); err != nil {
		f.Fatal(err)
	}
	return form.FormDataContentType(), out.Bytes()
}

func (x *fuzzed) judge(t *testing.T, r *http.Request, res *http.Response, body string) {
	if res.StatusCode >= 500 {
		t.Errorf("%s %s: %d %.500s", r.Method, r.URL, res.StatusCode, body)
	}
	if lack := lacks(res.Header); lack != "" {
		t.Errorf("%s %s: %s", r.Method, r.URL, lack)
	}
	if to := res.Header.Get("Location"); to != "" && !ownAddress(to) {
		t.Errorf("%s %s leads to %q", r.Method, r.URL, to)
	}
	if strings.Contains(body, strings.TrimSpace(outsideText)) || strings.Contains(body, x.root) {
		t.Errorf("%s %s tells what lies elsewhere", r.Method, r.URL)
	}
	for path, before := range map[string][]byte{x.file: x.text, x.dipper(): x.other} {
		after, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Equal(after, before) {
			continue
		}
		file, err := rig.Parse(path, after)
		if err != nil {
			t.Errorf("%s %s left %s no rig: %v", r.Method, r.URL, path, err)
		} else if l := file.Rig.Live; l != nil && l.Command != "" && l.Command != fuzzedCommand {
			t.Errorf("%s %s has this machine run %q", r.Method, r.URL, l.Command)
		}
	}
}

// clean looks for what was written elsewhere and puts back what was changed.
func (x *fuzzed) clean(t *testing.T) {
	x.restore(t)
	if text, err := os.ReadFile(x.outside); err != nil || string(text) != outsideText {
		t.Fatalf("the file outside: %q, %v", text, err)
	}
	rigs := filepath.Dir(filepath.Dir(x.file))
	err := filepath.WalkDir(x.root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path == x.outside {
			return err
		}
		below, _ := filepath.Rel(rigs, path)
		name, _, _ := strings.Cut(filepath.ToSlash(below), "/")
		switch {
		case strings.HasPrefix(path, filepath.Join(x.root, "tmp")):
			return nil // held until it is kept or the program ends
		case name == ".." || name == filepath.Base(below):
			t.Errorf("written outside the rigs: %s", path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	x.clear(t, rigs, "curlew", "dipper")
	for _, name := range []string{"curlew", "dipper"} {
		x.clear(t, filepath.Join(rigs, name), rig.FileName, store.FileName, store.FileName+"-wal", store.FileName+"-shm")
	}
}

// clear removes what is in a folder but for the names to keep.
func (x *fuzzed) clear(t *testing.T, folder string, keep ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if slices.Contains(keep, e.Name()) {
			continue
		}
		if err := os.RemoveAll(filepath.Join(folder, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
}
