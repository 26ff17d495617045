package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"ampstead/history"
)

// seen is the stamp of what the file holds.
func (v *visitor) seen() string { return stampOf([]byte(v.onDisk())) }

// saves changes one value as the form's module does.
func (v *visitor) saves(path, value, was string) liveAnswer {
	v.t.Helper()
	status, a := v.live(path, value, was)
	if status != http.StatusOK {
		v.t.Fatalf("%s: status %d %+v", path, status, a)
	}
	return a
}

// steps posts to /rig/undo and the like as a form without scripts does.
func (v *visitor) steps(page string, more ...string) *http.Response {
	v.t.Helper()
	f := url.Values{"seen": {v.seen()}}
	for i := 0; i < len(more); i += 2 {
		f.Set(more[i], more[i+1])
	}
	return v.post(page, f)
}

func leadsTo(t *testing.T, res *http.Response, want string) {
	t.Helper()
	if res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != want {
		t.Fatalf("%d to %q, want %q", res.StatusCode, res.Header.Get("Location"), want)
	}
}

func TestUndoAndRedoWithoutScripts(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	res := v.post("/rig/set", form("s-charge.roof_solar", equalise, "62.0 V", "off"))
	if res.StatusCode != http.StatusSeeOther {
		t.Fatalf("status %d", res.StatusCode)
	}
	edited := v.onDisk()
	to, _, _ := strings.Cut(res.Header.Get("Location"), "#")
	_, body := v.get(to)
	contains(t, "form", body, `action="/rig/undo"`, ">Undo</button>", `value="`+v.seen()+`"`, ">History</a>")
	if strings.Contains(body, ">Redo</button>") {
		t.Error("there is nothing to redo")
	}
	leadsTo(t, v.steps("/rig/undo", "page", "form"), "/rig?did=undo")
	if v.onDisk() != before {
		t.Error("the undone file is not what it was")
	}
	_, body = v.get("/rig?did=undo")
	contains(t, "form", body, "Undone.", `formaction="/rig/redo"`)
	leadsTo(t, v.steps("/rig/redo"), "/rig/history?did=redo&of=2")
	if v.onDisk() != edited {
		t.Error("what was done again is not what was edited")
	}
	_, body = v.get("/rig/history?did=redo&of=2")
	contains(t, "history", body, "Done again: the file is what version 2 was.", "Undo, to version 1", "undone, back to 1", "done again, as 2", "<b>roof solar: settings, equalise</b>",
		`<span class="was">62.0 V</span> → <span class="is">off</span>`, "The first that was kept.")
}

func TestUndoInThePage(t *testing.T) {
	v := visit(t, "curlew-draft")
	first := v.saves(equalise, "off", "62.0 V")
	contains(t, "offer", first.Parts["did"], "Undo", `action="/rig/undo"`)
	v.header["Accept"] = "application/json"
	var a liveAnswer
	status, body := v.read(v.steps("/rig/undo", "page", "form", "open", "charge.roof solar"))
	if err := json.Unmarshal([]byte(body), &a); err != nil || status != http.StatusOK {
		t.Fatal(status, body, err)
	}
	if !a.Saved || a.Stamp != v.seen() || a.Say != "Undone. Roof solar: settings, equalise is 62.0 V." {
		t.Errorf("%v %q", a.Saved, a.Say)
	}
	contains(t, "sections", a.Parts["sections"], `value="62.0 V"`)
	contains(t, "offer", a.Parts["did"], "Redo")
	status, body = v.read(v.steps("/rig/undo", "page", "form"))
	if err := json.Unmarshal([]byte(body), &a); err != nil || status != http.StatusConflict || a.Saved || !strings.Contains(a.Say, "nothing to undo") {
		t.Errorf("%d %q %v", status, a.Say, err)
	}
}

func TestNothingIsPutBackOverWhatAnotherWroteMeanwhile(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.saves(equalise, "off", "62.0 V")
	old := v.seen()
	v.saves("bank.strings", "1", "2")
	now := v.onDisk()
	for _, page := range []string{"/rig/undo", "/rig/redo", "/rig/back"} {
		status, body := v.read(v.post(page, url.Values{"seen": {old}, "version": {"1"}}))
		if status != http.StatusConflict {
			t.Errorf("%s: status %d", page, status)
		}
		contains(t, page, body, "the file was changed meanwhile", "bank: strings")
	}
	if v.onDisk() != now {
		t.Error("the file changed")
	}
	v.header["Accept"] = "application/json"
	var a liveAnswer
	_, body := v.read(v.post("/rig/undo", url.Values{"seen": {old}, "page": {"form"}}))
	if err := json.Unmarshal([]byte(body), &a); err != nil || a.Saved || a.Stamp != v.seen() || a.Parts["sections"] == "" {
		t.Errorf("%v %+v", err, a)
	}
}

// Of many who undo the same edit at once, one does.
func TestManyUndoAtOnce(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	v.saves(equalise, "off", "62.0 V")
	f := url.Values{"seen": {v.seen()}}
	var wg sync.WaitGroup
	codes := make([]int, 8)
	for i := range codes {
		wg.Go(func() { codes[i] = v.post("/rig/undo", f).StatusCode })
	}
	wg.Wait()
	count := map[int]int{}
	for _, c := range codes {
		count[c]++
	}
	if count[http.StatusSeeOther] != 1 || count[http.StatusConflict] != 7 || v.onDisk() != before {
		t.Errorf("%v", count)
	}
}

func TestWhatAnotherProgramWroteIsShownAndUndone(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.saves(equalise, "off", "62.0 V")
	mine := v.onDisk()
	v.write(strings.Replace(mine, "mass: 52 kg", "mass: 54 kg", 1))
	_, body := v.get("/rig/history")
	contains(t, "history", body, "The file now", "changed by another program, not kept yet", "<b>bank: mass</b>", "Undo, to version 2")
	leadsTo(t, v.steps("/rig/undo"), "/rig/history?did=undo&of=2")
	if v.onDisk() != mine {
		t.Error("the file is another")
	}
}

func TestADamagedFileIsUndone(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.saves(equalise, "off", "62.0 V")
	mine := v.onDisk()
	v.write("about: [")
	_, body := v.get("/rig")
	contains(t, "trouble", body, "Undo, to version 2", `action="/rig/undo"`)
	leadsTo(t, v.steps("/rig/undo"), "/rig/history?did=undo&of=2")
	if v.onDisk() != mine {
		t.Error("the file is another")
	}
	_, body = v.get("/rig/history")
	contains(t, "history", body, `href="/rig/text?version=3"`, "Open its text")
	status, body := v.get("/rig/text?version=3")
	if status != http.StatusOK {
		t.Errorf("status %d", status)
	}
	contains(t, "text", body, "This is version 3 of rig.yaml", "about: [", `name="seen" value="`+v.seen()+`"`)
	if status, _ := v.read(v.steps("/rig/back", "version", "3")); status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", status)
	}
	if status, _ := v.get("/rig/text?version=77"); status != http.StatusNotFound {
		t.Errorf("status %d", status)
	}
	if v.onDisk() != mine {
		t.Error("the file changed")
	}
}

func TestPutAnyVersionBack(t *testing.T) {
	v := visit(t, "curlew-draft")
	first := v.onDisk()
	v.saves(equalise, "off", "62.0 V")
	v.saves("bank.strings", "1", "2")
	leadsTo(t, v.steps("/rig/back", "version", "1"), "/rig/history?did=back&of=1")
	if v.onDisk() != first {
		t.Error("the file is another")
	}
	for version, want := range map[string]int{"9": http.StatusNotFound, "4": http.StatusConflict, "x": http.StatusBadRequest, "-1": http.StatusBadRequest, "": http.StatusBadRequest} {
		if status, _ := v.read(v.steps("/rig/back", "version", version)); status != want {
			t.Errorf("version %q: status %d, want %d", version, status, want)
		}
	}
	if v.onDisk() != first {
		t.Error("the file changed")
	}
}

// An old version cannot bring back what a page may not write: which program is run.
func TestAVersionThatRunsAProgramIsNotPutBackFromThePage(t *testing.T) {
	v := visit(t, "curlew-draft")
	plain := v.onDisk()
	v.write(plain + "live: {broker: 'mqtt://127.0.0.1:1883', command: /bin/ring}\n")
	v.saves(equalise, "off", "62.0 V")
	v.write(plain)
	for page, more := range map[string][]string{"/rig/undo": nil, "/rig/back": {"version", "1"}} {
		status, body := v.read(v.steps(page, more...))
		if status != http.StatusUnprocessableEntity || !strings.Contains(body, "changed in the file itself") {
			t.Errorf("%s: status %d", page, status)
		}
	}
	if v.onDisk() != plain {
		t.Error("the file changed")
	}
}

func TestADamagedOrStrangeFileAmongTheVersions(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.saves(equalise, "off", "62.0 V")
	v.saves("bank.strings", "1", "2")
	all, err := history.Names(v.file)
	if err != nil {
		t.Fatal(err)
	}
	folder := history.Folder(v.file)
	if err := os.Truncate(filepath.Join(folder, all[1].Name), 5); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "<b>mine.txt"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	_, body := v.get("/rig/history")
	contains(t, "history", body, "Left alone", "&lt;b&gt;mine.txt: is no version", all[1].Name+": is damaged")
	if status, _ := v.read(v.steps("/rig/back", "version", "2")); status != http.StatusConflict {
		t.Errorf("status %d", status)
	}
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(folder, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	status, body := v.get("/rig/history")
	if status != http.StatusOK || strings.Contains(body, filepath.Dir(v.file)) {
		t.Errorf("status %d, or the page says where the file lies", status)
	}
	contains(t, "history", body, "The versions cannot be read")
	before := v.onDisk()
	v.header["Accept"] = "application/json"
	if res := v.post("/rig/set", url.Values{"path": {equalise}, "value": {"61.0 V"}, "was": {"off"}}); res.StatusCode == http.StatusOK || v.onDisk() != before {
		t.Errorf("saved without keeping what was there: %d", res.StatusCode)
	}
}

func TestManyVersionsArePaged(t *testing.T) {
	v := visit(t, "dipper")
	for i := range mostEvents + 4 {
		if err := history.Keep(v.file, []byte(strings.Replace(v.onDisk(), "power: 800 W", fmt.Sprintf("power: %d W", 700+i), 1)), history.Mark{Kind: history.Edit}, v.now()); err != nil {
			t.Fatal(err)
		}
	}
	_, body := v.get("/rig/history")
	if n := strings.Count(body, `<li id="version-`); n != mostEvents {
		t.Errorf("%d versions", n)
	}
	older := mostEvents + 4 - (mostEvents - 1) + 1 // one of them is what the file holds now
	contains(t, "history", body, `href="/rig/history?before=`+strconv.Itoa(older)+`"`, strconv.Itoa(older-1)+" older versions")
	_, body = v.get("/rig/history?before=" + strconv.Itoa(older))
	contains(t, "older", body, "Version 1<", "The newest versions")
	if n := strings.Count(body, `<li id="version-`); n != older-1 {
		t.Errorf("%d older versions", n)
	}
}
