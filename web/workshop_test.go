package web

import (
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
)

// visitWorkshop makes a site over a folder with the named example rigs, the first
// of them at "/" unless it is empty.
func visitWorkshop(t *testing.T, front string, rigs ...string) (*visitor, string) {
	t.Helper()
	folder := t.TempDir()
	for _, name := range rigs {
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		mustWrite(t, filepath.Join(folder, name, "rig.yaml"), text)
	}
	v := &visitor{t: t, clock: time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC), host: "localhost:8000", from: "127.0.0.1:40000", header: map[string]string{}}
	config := Config{Workshop: folder, Version: "test", Now: func() time.Time { return v.clock }, still: true}
	if front != "" {
		config.Path = filepath.Join(folder, front)
		v.file = filepath.Join(config.Path, "rig.yaml")
	}
	handler, err := New(config)
	if err != nil {
		t.Fatal(err)
	}
	v.handler = handler
	t.Cleanup(v.close)
	return v, folder
}

func mustWrite(t *testing.T, path string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

var ownLink = regexp.MustCompile(`(?:href|action|src|data-poll|data-events)="(/[^"]*)"`)

// What belongs to one rig never leads to the pages of another.
func TestLinksStayWithTheirRig(t *testing.T) {
	v, _ := visitWorkshop(t, "curlew", "curlew", "dipper")
	shared := []string{"/static/", "/show", "/rigs", "/start", "/phone", "/app.webmanifest", "/login", "/logout"}
	for _, page := range []string{"/", "/rig", "/rig/text", "/prove", "/prove/plan", "/fit", "/wire", "/keep", "/keep/live", "/book"} {
		status, body := v.get("/rigs/dipper" + page)
		if status != http.StatusOK {
			t.Errorf("%s: status %d", page, status)
		}
		for _, link := range ownLink.FindAllStringSubmatch(body, -1) {
			own := strings.HasPrefix(link[1], "/rigs/dipper")
			if !own && !slices.ContainsFunc(shared, func(s string) bool { return strings.HasPrefix(link[1], s) }) {
				t.Errorf("%s of Dipper leads to %s", page, link[1])
			}
		}
		if page != "/rig" && strings.Contains(body, "Curlew") { // the form has it as an example of a name
			t.Errorf("%s of Dipper speaks of the other rig", page)
		}
	}
}

func TestAnEditReachesItsRigAlone(t *testing.T) {
	v, folder := visitWorkshop(t, "curlew", "curlew", "dipper")
	before := v.onDisk()
	res := v.post("/rigs/dipper/rig/set", map[string][]string{"path": {"about.note"}, "value": {"seen by the river"}})
	if res.StatusCode != http.StatusSeeOther || !strings.HasPrefix(res.Header.Get("Location"), "/rigs/dipper/rig?saved=1") {
		t.Errorf("status %d, leads to %q", res.StatusCode, res.Header.Get("Location"))
	}
	text, _ := os.ReadFile(filepath.Join(folder, "dipper", "rig.yaml"))
	contains(t, "Dipper's file", string(text), "seen by the river")
	if v.onDisk() != before {
		t.Error("the front rig changed")
	}
}

func TestWorkshopKeepsInsideItsFolder(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	outside := t.TempDir()
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	mustWrite(t, filepath.Join(outside, "rig.yaml"), text)
	mustWrite(t, filepath.Join(folder, ".hidden", "rig.yaml"), text)
	mustWrite(t, filepath.Join(folder, "empty", "note.txt"), nil)
	if err := os.Symlink(outside, filepath.Join(folder, "elsewhere")); err != nil {
		t.Skip("this machine makes no symbolic links: the check of links did not run")
	}
	for _, slug := range []string{"elsewhere", ".hidden", "empty", "..", ".", "dipper%2f..%2f..", "..%2f" + filepath.Base(outside), "%5c", "nobody", strings.Repeat("x", 300), "dipper%00"} {
		if status, _ := v.get("/rigs/" + slug + "/fit"); status == http.StatusOK {
			t.Errorf("/rigs/%s/fit is shown", slug)
		}
	}
	if list, err := v.handler.(*pages).hall.workshop.slugs(); err != nil || !slices.Equal(list, []string{"dipper"}) {
		t.Errorf("rigs %v, %v", list, err)
	}
}

func TestFrontRigHasOneAddress(t *testing.T) {
	v, _ := visitWorkshop(t, "curlew", "curlew", "dipper")
	res := v.do(httptestGet("/rigs/curlew/fit?x=1"))
	if res.StatusCode != http.StatusTemporaryRedirect || res.Header.Get("Location") != "/fit?x=1" {
		t.Errorf("status %d to %q", res.StatusCode, res.Header.Get("Location"))
	}
	if res := v.do(httptestGet("/rigs/dipper")); res.Header.Get("Location") != "/rigs/dipper/" {
		t.Errorf("to %q", res.Header.Get("Location"))
	}
}

func TestCreateNeverTouchesAFolder(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	w := v.handler.(*pages).hall.workshop
	text, _ := examples.Read("curlew")
	for _, c := range []struct{ name, slug string }{
		{"Dipper", "dipper-2"}, {"Dipper", "dipper-3"}, {"Wren & Son, 2nd van!", "wren-son-2nd-van"},
		{"../../etc", "etc"}, {"雪", "rig"}, {"", "rig-2"}, {strings.Repeat("long ", 40), "long-long-long-long-long-long-long-long-long-long-lo"},
	} {
		slug, err := w.create(c.name, text)
		if err != nil || slug != c.slug {
			t.Errorf("%q becomes %q, want %q, %v", c.name, slug, c.slug, err)
		}
		if got, err := os.ReadFile(filepath.Join(folder, slug, "rig.yaml")); err != nil || string(got) != string(text) {
			t.Errorf("%q: the file is not what was given, %v", c.name, err)
		}
	}
	original, _ := examples.Read("dipper")
	if got, _ := os.ReadFile(filepath.Join(folder, "dipper", "rig.yaml")); string(got) != string(original) {
		t.Error("the rig that was there changed")
	}
}

func TestBareWorkshopLeadsToItsRigs(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	if res := v.do(httptestGet("/")); res.StatusCode != http.StatusSeeOther {
		t.Errorf("/ answers %d", res.StatusCode)
	}
	if status, body := v.get("/rigs"); status != http.StatusOK {
		t.Errorf("/rigs answers %d", status)
	} else {
		contains(t, "/rigs", body, `href="/rigs/dipper/"`, "Dipper")
	}
	if status, _ := v.get("/fit"); status != http.StatusNotFound {
		t.Errorf("/fit without a rig answers %d", status)
	}
}
