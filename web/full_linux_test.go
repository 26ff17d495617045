package web

import (
	"bytes"
	"errors"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// smallDisk is a rig on a disk of its own, in memory, where uploads go too.
func smallDisk(t *testing.T, size string) *visitor {
	t.Helper()
	root := t.TempDir()
	if err := syscall.Mount("tmpfs", root, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted here (%v)", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(root, syscall.MNT_DETACH) })
	temp, folder := filepath.Join(root, "tmp"), filepath.Join(root, "curlew")
	if err := os.Mkdir(temp, 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("TMPDIR", temp)
	putExample(t, folder, "curlew")
	v := newVisitor(t, filepath.Join(folder, "rig.yaml"))
	config := Config{Path: folder, Version: "test", Now: v.now}
	standIns(&config)
	v.open(config)
	return v
}

// fillDisk takes up all the room that is left and returns how to give it back.
func fillDisk(t *testing.T, folder string) (empty func()) {
	t.Helper()
	path := filepath.Join(folder, "ballast")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	for size := 64 << 10; size > 0; size /= 2 {
		for err = nil; err == nil; {
			_, err = file.Write(make([]byte, size))
		}
		if !errors.Is(err, syscall.ENOSPC) {
			t.Fatal(err)
		}
	}
	return func() {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
}

// write is one thing that a visitor writes, and how the page answers once it is done.
type write struct {
	name string
	do   func(v *visitor) *http.Response
	done int
}

// resting is what the example's groups show.
var resting = strings.Fields(strings.Repeat("3.91 ", 12))

// visitOn is a reading of them, which differs a little from day to day.
func visitOn(at string) url.Values {
	f := entryOf("p"+at[8:10], resting...)
	f.Set("taken", at)
	f.Set("group.1", "3.91"+at[9:10])
	return f
}

func everyWrite() []write {
	return []write{
		{"an edit", func(v *visitor) *http.Response { return v.post("/rig/set", form("", "bank.mass", "52 kg", "51 kg")) }, http.StatusSeeOther},
		{"the text", func(v *visitor) *http.Response {
			return v.post("/rig/text", url.Values{"text": {v.onDisk() + "# " + strings.Repeat("x", 9000) + "\n"}, "seen": {stampOf([]byte(v.onDisk()))}})
		}, http.StatusSeeOther},
		{"a reading", func(v *visitor) *http.Response { return v.post("/keep/reading/new", visitOn("2026-11-19T09:00")) }, http.StatusSeeOther},
		{"a note", func(v *visitor) *http.Response {
			return v.post("/keep/done", url.Values{"what": {"balanced"}, "note": {strings.Repeat("x", 900)}})
		}, http.StatusSeeOther},
		{"a log", func(v *visitor) *http.Response { return v.sendFile("rest.csv", strings.Repeat("0,3.71,0\n", 9000)) }, http.StatusSeeOther},
	}
}

// On a full disk every write is refused and says so; what was there stays whole,
// pages are still shown, and once there is room everything works again.
func TestFullDisk(t *testing.T) {
	v := smallDisk(t, "4m")
	folder := filepath.Dir(v.file)
	if res := v.post("/keep/reading/new", visitOn("2026-11-12T09:00")); res.StatusCode != http.StatusSeeOther {
		t.Fatal(v.read(res))
	}
	empty := fillDisk(t, filepath.Dir(folder))
	before, table := v.tree(), readingTable(v)
	for _, w := range everyWrite() {
		status, body := v.read(w.do(v))
		if status != http.StatusInsufficientStorage || !strings.Contains(body, "the disk is full; make room") || strings.Contains(body, folder) {
			t.Errorf("%s on a full disk: %d %s", w.name, status, words(body))
		}
		if readingTable(v) != table {
			t.Errorf("%s: the logbook tells something else", w.name)
		}
	}
	v.header["Accept"] = "application/json"
	if status, body := v.read(v.post("/rig/set", form("", "bank.mass", "52 kg", "51 kg"))); status != http.StatusInsufficientStorage || strings.Contains(body, "<") {
		t.Errorf("the form's module is told %d %q", status, body)
	}
	if status, body := v.sendJSON(`{"readings":[{"id":"p2","taken":"2026-11-19T09:00:00Z","bank_v":47}]}`); status != http.StatusInsufficientStorage || strings.Contains(body, `"stored":true`) {
		t.Errorf("a reading the page kept: %d %s", status, body)
	}
	delete(v.header, "Accept")
	sameButLogbook(t, before, v.tree())
	for _, path := range []string{"/", "/fit", "/rig", "/keep", "/prove", "/book", "/book/save"} {
		if status, body := v.get(path); status != http.StatusOK {
			t.Errorf("%s on a full disk: %d %s", path, status, words(body))
		}
	}
	empty()
	for _, w := range everyWrite() {
		if status, body := v.read(w.do(v)); status != w.done {
			t.Errorf("%s, with room again: %d %s", w.name, status, words(body))
		}
	}
	if left := halfWritten(t, folder); len(left) > 0 {
		t.Errorf("left %v", left)
	}
}

func readingTable(v *visitor) string {
	_, body := v.get("/keep/readings.csv")
	return body
}

// sameButLogbook compares what lies on the disk; the database may have moved within
// its own files.
func sameButLogbook(t *testing.T, before, after string) {
	t.Helper()
	strip := func(tree string) string {
		var out bytes.Buffer
		for line := range strings.Lines(tree) {
			if !strings.Contains(line, "/logbook.") && !strings.Contains(line, "/ballast") {
				out.WriteString(line)
			}
		}
		return out.String()
	}
	if strip(before) != strip(after) {
		t.Errorf("on the disk:\n%s\nbefore:\n%s", strip(after), strip(before))
	}
}

// words is a page without its tags, for a message.
func words(page string) string {
	var out strings.Builder
	inside := false
	for _, r := range page {
		switch {
		case r == '<':
			inside = true
		case r == '>':
			inside = false
		case !inside && out.Len() < 600:
			out.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

// In a folder that cannot be written everything is shown, and every write is refused
// and says why.
func TestReadOnlyFolder(t *testing.T) {
	v := smallDisk(t, "8m")
	folder := filepath.Dir(v.file)
	if res := v.post("/keep/reading/new", visitOn("2026-11-12T09:00")); res.StatusCode != http.StatusSeeOther {
		t.Fatal(v.read(res))
	}
	table := readingTable(v)
	v.close()
	root := filepath.Dir(folder)
	if err := syscall.Mount("", root, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("nothing can be made read-only here (%v)", err)
	}
	config := Config{Path: folder, Version: "test", Now: v.now}
	standIns(&config)
	v.open(config)
	before := v.tree()
	for _, path := range []string{"/", "/fit", "/wire", "/rig", "/rig/text", "/keep", "/prove", "/book", "/book/save", "/travel", "/drill", "/choose"} {
		if status, body := v.get(path); status != http.StatusOK || strings.Contains(body, "read-only for this program") {
			t.Errorf("%s: %d %s", path, status, words(body))
		}
	}
	if got := readingTable(v); got != table {
		t.Errorf("the logbook reads %q, before %q", got, table)
	}
	for _, w := range everyWrite() {
		status, body := v.read(w.do(v))
		if status != http.StatusServiceUnavailable || !strings.Contains(body, "the disk or the folder is read-only") || strings.Contains(body, folder) {
			t.Errorf("%s: %d %s", w.name, status, words(body))
		}
	}
	if after := v.tree(); after != before {
		t.Errorf("on the disk:\n%s\nbefore:\n%s", after, before)
	}
}
