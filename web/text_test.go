package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
)

func TestTextIsSavedWholeWithItsLineEnds(t *testing.T) {
	v := visit(t, "curlew-draft")
	want := strings.Replace(v.onDisk(), "mass: 52 kg", "mass: 50 kg   # weighed", 1)
	res := v.post("/rig/text", url.Values{"text": {strings.ReplaceAll(want, "\n", "\r\n")}, "seen": {stampOf([]byte(v.onDisk()))}})
	if res.StatusCode != http.StatusSeeOther {
		_, body := v.read(res)
		t.Fatalf("status %d: %s", res.StatusCode, body)
	}
	if v.onDisk() != want {
		t.Error("the file is not what was typed")
	}
}

func TestWrongTextListsLinesAndChangesNothing(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	typed := strings.Replace(before, "series: 12", "series: dozen", 1)
	line := 1 + strings.Count(typed[:strings.Index(typed, "series: dozen")], "\n")
	status, body := v.read(v.post("/rig/text", url.Values{"text": {typed}, "seen": {stampOf([]byte(before))}}))
	if status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", status)
	}
	contains(t, "text page", body, "series: dozen", "bank.series", `data-line="`, "1 thing is wrong")
	if want := "line " + itoa(line); !strings.Contains(body, want) {
		t.Errorf("does not name %s", want)
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestTextConflictKeepsBothTexts(t *testing.T) {
	v := visit(t, "curlew-draft")
	seen := stampOf([]byte(v.onDisk()))
	mine := strings.Replace(v.onDisk(), "mass: 52 kg", "mass: 50 kg", 1)
	theirs := strings.Replace(v.onDisk(), "mass: 52 kg", "mass: 55 kg", 1)
	v.write(theirs)
	status, body := v.read(v.post("/rig/text", url.Values{"text": {mine}, "seen": {seen}}))
	if status != http.StatusConflict {
		t.Errorf("status %d", status)
	}
	contains(t, "text page", body, "changed meanwhile", "mass: 50 kg", "mass: 55 kg", stampOf([]byte(theirs)))
	if v.onDisk() != theirs {
		t.Error("the file changed")
	}
}

func TestDamagedFileIsMendedAsText(t *testing.T) {
	good := visit(t, "dipper").onDisk()
	v := visitText(t, "about: [")
	res := v.post("/rig/text", url.Values{"text": {good}, "seen": {stampOf([]byte("about: ["))}})
	if res.StatusCode != http.StatusSeeOther || v.onDisk() != good {
		t.Errorf("status %d", res.StatusCode)
	}
	if status, body := v.get("/rig/text?saved=1"); status != http.StatusOK || !strings.Contains(body, "Saved.") {
		t.Errorf("status %d", status)
	}
}

func itoa(n int) string { return strconv.Itoa(n) }
