package web

import (
	"encoding/csv"
	"net/http"
	"strings"
	"testing"

	"ampstead/fit"
)

func TestWirePage(t *testing.T) {
	v := visit(t, "curlew-draft")
	_, body := v.get("/wire")
	contains(t, "/wire", body, `<a href="/wire" aria-current="page">Wire</a>`, "oneline-1040-title", "oneline-390-title", "too small", "Parts list as CSV", "Before main contactor closes")
	_, home := v.get("/")
	contains(t, "/", home, `<a href="/wire">Wire</a>`, "-wire-cable-too-small")
	if n := strings.Count(home, ">stop: do not connect</span> main fuse, interrupt<"); n > 1 {
		t.Errorf("the main fuse's finding stands %d times at a glance", n)
	}
}

func TestPartsAsATable(t *testing.T) {
	v := visit(t, "curlew")
	for path, head := range map[string]string{"/wire/parts.csv": "item", "/wire/schedule.csv": "circuit"} {
		status, body := v.get(path)
		rows, err := csv.NewReader(strings.NewReader(body)).ReadAll()
		if status != http.StatusOK || err != nil || len(rows) < 5 || rows[0][0] != head {
			t.Errorf("%s: status %d, %d rows, %v", path, status, len(rows), err)
		}
	}
}

// Without a rig that can be read there is no table, and no page falls over.
func TestWireWithoutARig(t *testing.T) {
	v := visitText(t, "about: [")
	if status, _ := v.get("/wire/parts.csv"); status != http.StatusNotFound {
		t.Errorf("a parts list of nothing: status %d", status)
	}
	if status, body := v.get("/wire"); status != http.StatusOK || !strings.Contains(body, "</html>") {
		t.Errorf("the page of a file that is no rig: status %d", status)
	}
}

// What keeps the wiring from being reckoned is said on its page, and the other
// pages go on with the fit alone.
func TestWiringThatCannotBeReckoned(t *testing.T) {
	v := visit(t, "curlew")
	_, _ = v.get("/wire")
	now := readingOfFile(t, v)
	now.wired, now.unwired = nil, fitProblem(now.file, &fit.InputError{Path: "cables.bank to bus.size", Message: "no such size", Expected: "a size", Example: "50 mm²"})
	if got := len(now.found()); got != len(now.result.Findings) {
		t.Errorf("%d findings without a wiring", got)
	}
	if now.whole().Wiring != nil {
		t.Error("a wiring that was not reckoned")
	}
	if now.unwired.Line == 0 || now.unwired.Expected == "" {
		t.Errorf("the problem has no place: %+v", now.unwired)
	}
}

func readingOfFile(t *testing.T, v *visitor) *reading {
	t.Helper()
	now := newDesk(v.file).read()
	if now.result == nil {
		t.Fatal("the example cannot be read")
	}
	return now
}
