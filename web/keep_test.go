package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ampstead/store"
)

func visitLog(t testing.TB, change ...func(*Config)) *visitor {
	return visitText(t, wren, change...)
}

// sendJSON sends readings as the page's script does.
func (v *visitor) sendJSON(text string) (int, string) {
	v.t.Helper()
	r := httptest.NewRequest(http.MethodPost, "/keep/readings", strings.NewReader(text))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return v.read(v.do(r))
}

func entryOf(id string, groups ...string) url.Values {
	f := url.Values{"id": {id}, "rested": {"8"}, "meter": {"bench"}}
	for i, g := range groups {
		f.Set(fmt.Sprintf("group.%d", i+1), g)
	}
	return f
}

func TestKeepPageWithoutALog(t *testing.T) {
	v := visitLog(t)
	status, body := v.get("/keep")
	if status != http.StatusOK {
		t.Fatalf("status %d: %.300s", status, body)
	}
	contains(t, "keep", body, "No reading is in the logbook yet.", `name="group.3"`, `inputmode="decimal"`, `enterkeyhint="next"`, "/static/keep.js", "Store this reading")
	if strings.Contains(body, `name="group.4"`) {
		t.Error("more fields than groups")
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(v.file), store.FileName)); !os.IsNotExist(err) {
		t.Error("looking made a logbook")
	}
	for _, path := range []string{"/keep/readings.csv", "/keep/logbook.json", "/keep/calendar.ics"} {
		if status, body := v.get(path); status != http.StatusOK {
			t.Errorf("%s: status %d: %.200s", path, status, body)
		}
	}
	if status, body := v.get("/keep/logbook.sqlite"); status == http.StatusOK || !strings.Contains(body, "no logbook to copy yet") {
		t.Errorf("backup of nothing: %d", status)
	}
}

// Without scripts: a form that is sent, decimal comma and all, is stored once
// however often it is sent; a correction is a new version.
func TestReadingByForm(t *testing.T) {
	v := visitLog(t)
	f := entryOf("form-1", "3,910", "3.912", " 3.905 V ")
	f.Set("bank", "11,727")
	f.Set("temps", "18 17.5")
	for i, want := range []string{"stored", "known", "known"} {
		res := v.post("/keep/reading/new", f)
		if to := res.Header.Get("Location"); res.StatusCode != http.StatusSeeOther || to != "/keep?done="+want {
			_, said := v.read(res)
			t.Fatalf("time %d: status %d to %q: %.300s", i+1, res.StatusCode, to, said)
		}
	}
	list := v.readings()
	if len(list) != 1 {
		t.Fatalf("%d readings", len(list))
	}
	r := list[0]
	if *r.Groups[0] != 3.91 || *r.Groups[2] != 3.905 || *r.BankV != 11.727 || *r.RestH != 8 || r.Meter != "bench" || len(r.TempsC) != 2 || r.TempsC[1] != 17.5 {
		t.Errorf("stored %+v", r)
	}
	_, body := v.get("/keep?done=stored")
	contains(t, "keep", body, "The reading is stored.", `data-last="3.910"`, "3.905 to 3.912 V", `value="bench"`, "drift-1040-title")

	_, body = v.get("/keep/reading?id=form-1")
	contains(t, "reading", body, `name="version" value="1"`, `value="3.912"`, "Withdraw this reading")
	f.Set("version", "1")
	f.Set("group.2", "3.911")
	f.Set("taken", r.Taken.Format("2006-01-02T15:04"))
	if to := v.post("/keep/reading", f).Header.Get("Location"); to != "/keep?done=corrected" {
		t.Fatalf("corrected: to %q", to)
	}
	f.Set("group.2", "3.9")
	if res := v.post("/keep/reading", f); res.StatusCode != http.StatusConflict {
		t.Errorf("a correction of an old version: status %d", res.StatusCode)
	}
	_, body = v.get("/keep/reading?id=form-1")
	contains(t, "history", body, "3.910 3.911 3.905", "3.910 3.912 3.905", `name="version" value="2"`)
	if to := v.post("/keep/reading", url.Values{"id": {"form-1"}, "version": {"2"}, "do": {"withdraw"}, "why": {"read too early"}}).Header.Get("Location"); to != "/keep?done=withdrawn" {
		t.Errorf("withdrawn: to %q", to)
	}
	if n := len(v.readings()); n != 0 {
		t.Errorf("%d readings after it was withdrawn", n)
	}
	if status, _ := v.get("/keep/reading?id=none"); status != http.StatusNotFound {
		t.Errorf("a reading that is not there: %d", status)
	}
}

func TestSlipsAreAskedBack(t *testing.T) {
	v := visitLog(t)
	f := entryOf("slip", "3.910", "3912", "3.905")
	res := v.post("/keep/reading/new", f)
	status, body := v.read(res)
	if status != http.StatusConflict || len(v.readings()) != 0 {
		t.Fatalf("status %d, %d readings", status, len(v.readings()))
	}
	contains(t, "asked", body, "Not stored yet", `value="3912"`, "Store it as it is", `aria-invalid="true"`)
	at := strings.Index(body, `name="sure" value="`)
	f.Set("sure", body[at+19:at+19+strings.IndexByte(body[at+19:], '"')])
	f.Set("group.3", "3905")
	if res := v.post("/keep/reading/new", f); res.StatusCode != http.StatusConflict {
		t.Errorf("another slip was stored unasked: %d", res.StatusCode)
	}
	f.Set("group.3", "3.905")
	if to := v.post("/keep/reading/new", f).Header.Get("Location"); to != "/keep?done=stored" {
		t.Errorf("sure: to %q", to)
	}
	f = entryOf("words", "three", "3.9", "3.9")
	status, body = v.read(v.post("/keep/reading/new", f))
	if status != http.StatusUnprocessableEntity {
		t.Errorf("words: status %d", status)
	}
	contains(t, "words", body, "cannot be read", "look at the fields that are marked")
}

// What a page kept is taken once each; what cannot be is said for each.
func TestReadingsAsJSON(t *testing.T) {
	v := visitLog(t)
	one := `{"id":"a-1","version":1,"taken":"2026-11-19T10:00:00Z","groups_v":[3.91,3.912,3.905],"note":"<b>"}`
	two := `{"id":"a-2","version":1,"taken":"2026-11-19T18:00:00Z","groups_v":[3.9,null,3.9]}`
	for i, fresh := range []bool{true, false} {
		status, body := v.sendJSON(`{"readings":[` + one + `,` + two + `]}`)
		var got struct{ Results []gotReading }
		if err := json.Unmarshal([]byte(body), &got); err != nil || status != http.StatusOK || len(got.Results) != 2 {
			t.Fatalf("%d %s", status, body)
		}
		for _, g := range got.Results {
			if !g.Stored || g.Fresh != fresh {
				t.Errorf("time %d: %+v", i+1, g)
			}
		}
	}
	if n := len(v.readings()); n != 2 {
		t.Fatalf("%d readings", n)
	}
	status, body := v.sendJSON(`{"readings":[{"id":"a-1","taken":"2026-11-19T10:00:00Z","groups_v":[3.8]},{"id":"a 3","taken":"2026-11-19T10:00:00Z","groups_v":[3.8]},{"id":"a-4","taken":"2026-11-19T10:00:00Z","groups_v":[3.8,3.8,3.8,3.8]},` +
		`{"id":"a-5","taken":"1806-11-19T10:00:00Z","groups_v":[3.8]}]}`)
	if status != http.StatusOK || strings.Count(body, `"stored":false`) != 4 {
		t.Errorf("%d %s", status, body)
	}
	contains(t, "refused", body, "/keep/reading?id=a-1", "is no ID", "4 values, and the bank has 3 groups", `"field":"taken"`)
	status, body = v.sendJSON(`{"ask":true,"readings":[{"id":"a-6","taken":"2026-11-19T20:00:00Z","groups_v":[3.91,3912,3.905]}]}`)
	if status != http.StatusOK || !strings.Contains(body, `"doubts":[{"field":"groups.2"`) || len(v.readings()) != 2 {
		t.Errorf("asked: %d %s", status, body)
	}
}

func TestReadingsAsJSONRefused(t *testing.T) {
	v := visitLog(t)
	for _, c := range []struct {
		body   string
		status int
	}{
		{`{"readings":`, http.StatusBadRequest}, {`[]`, http.StatusBadRequest}, {`{"readings":[{"taken":"soon"}]}`, http.StatusBadRequest},
		{`{"rig":"other","readings":[]}`, http.StatusConflict}, {`{"readings":[` + strings.Repeat(`{},`, mostSent) + `{}]}`, http.StatusRequestEntityTooLarge},
		{`{"readings":[{"note":"` + strings.Repeat("x", maxForm) + `"}]}`, http.StatusRequestEntityTooLarge}, {`{"readings":[]}`, http.StatusOK},
	} {
		if status, body := v.sendJSON(c.body); status != c.status || !json.Valid([]byte(body)) {
			t.Errorf("%.40s: status %d, want %d: %.200s", c.body, status, c.status, body)
		}
	}
	r := httptest.NewRequest(http.MethodPost, "/keep/readings", strings.NewReader(`{"readings":[]}`))
	r.Header.Set("Content-Type", "text/plain")
	if status, _ := v.read(v.do(r)); status != http.StatusUnsupportedMediaType {
		t.Errorf("text: status %d", status)
	}
	r = httptest.NewRequest(http.MethodPost, "/keep/readings", strings.NewReader(`{"readings":[]}`))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	if status, _ := v.read(v.do(r)); status != http.StatusForbidden {
		t.Errorf("from another site: status %d", status)
	}
}

// A logbook that is damaged is said to be, and kept; what is sent is refused so
// that the phone goes on keeping it.
func TestDamagedLogbook(t *testing.T) {
	v := visitLog(t)
	path := filepath.Join(filepath.Dir(v.file), store.FileName)
	damage := []byte("this is no logbook at all, but it is somebody's file")
	if err := os.WriteFile(path, damage, 0o644); err != nil {
		t.Fatal(err)
	}
	status, body := v.get("/keep")
	if status != http.StatusOK {
		t.Fatalf("status %d", status)
	}
	contains(t, "damaged", body, "The logbook cannot be read", "Nothing in it was changed", `name="group.3"`)
	if status, body := v.sendJSON(`{"readings":[{"id":"a","taken":"2026-11-19T10:00:00Z","groups_v":[3.8]}]}`); status != http.StatusServiceUnavailable || !strings.Contains(body, `"error"`) {
		t.Errorf("sent: %d %s", status, body)
	}
	if status, _ := v.read(v.post("/keep/reading/new", entryOf("b", "3.9", "3.9", "3.9"))); status != http.StatusServiceUnavailable {
		t.Errorf("form: status %d", status)
	}
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, damage) {
		t.Errorf("the file was changed: %v", err)
	}
}

func (v *visitor) sendTable(text string) *http.Response {
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("table", "log.csv")
	if err != nil {
		v.t.Fatal(err)
	}
	io.WriteString(part, text)
	form.Close()
	r := httptest.NewRequest(http.MethodPost, "/keep/import", &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	return v.do(r)
}

func TestTableIsTakenInAndGivenOut(t *testing.T) {
	v := visitLog(t)
	table := "taken;group 1;group 2;group 3\n2026-11-01 10:00;3,91;3,912;3,905\n2026-11-08;3,90;3,901;3,895\n"
	for _, want := range []string{"/keep?done=imported&fresh=2&known=0", "/keep?done=imported&fresh=0&known=2"} {
		if to := v.sendTable(table).Header.Get("Location"); to != want {
			t.Fatalf("to %q, want %q", to, want)
		}
	}
	for name, bad := range map[string]string{"": "", "line 2, column 2": "taken,group 1\n2026-11-01,warm\n", "is not known": "taken,colour\n", "has 3 groups": "taken,group 4\n2026-11-01,3.9\n"} {
		status, body := v.read(v.sendTable(bad))
		if status != http.StatusUnprocessableEntity || !strings.Contains(body, "Nothing was taken in") || !strings.Contains(body, name) {
			t.Errorf("%q: status %d", bad, status)
		}
	}
	_, csv := v.get("/keep/readings.csv")
	contains(t, "csv", csv, "id,version,taken", "3.912")
	if to := v.sendTable(csv).Header.Get("Location"); to != "/keep?done=imported&fresh=0&known=2" {
		t.Errorf("the export taken in again: to %q", to)
	}
	_, whole := v.get("/keep/logbook.json")
	if !json.Valid([]byte(whole)) || strings.Count(whole, `"id"`) != 2 {
		t.Errorf("%s", whole)
	}
	if status, copied := v.get("/keep/logbook.sqlite"); status != http.StatusOK || !strings.HasPrefix(copied, "SQLite format 3") {
		t.Errorf("backup: status %d", status)
	}
	if _, ics := v.get("/keep/calendar.ics"); !strings.HasPrefix(ics, "BEGIN:VCALENDAR") {
		t.Errorf("calendar %.40q", ics)
	}
	_, body := v.get("/book")
	contains(t, "book page", body, "what the logbook tells of its 2 readings")
	_, body = v.get("/book/read")
	contains(t, "book", body, "The logbook", "Readings by hand", "1 November 2026")
}

func TestDoneAndMeters(t *testing.T) {
	v := visitLog(t)
	if to := v.post("/keep/done", url.Values{"what": {"balanced"}, "ah": {"0 -0,4 0"}, "note": {"<with> the lamp"}}).Header.Get("Location"); to != "/keep?done=noted" {
		t.Errorf("done: to %q", to)
	}
	if to := v.post("/keep/meter", url.Values{"name": {"bench"}, "step": {"1"}, "error": {"2,5 mV"}}).Header.Get("Location"); to != "/keep?done=meter" {
		t.Errorf("meter: to %q", to)
	}
	_, body := v.get("/keep")
	contains(t, "keep", body, "balanced, &lt;with&gt; the lamp", "2.5 mV", `<option value="bench">`)
	for path, f := range map[string]url.Values{"/keep/done": {"what": {"balanced"}, "ah": {"0 x"}}, "/keep/meter": {"name": {"bench"}, "step": {"one"}, "error": {"5"}}} {
		if status, body := v.read(v.post(path, f)); status != http.StatusUnprocessableEntity || !strings.Contains(body, "Not stored:") {
			t.Errorf("%s: status %d", path, status)
		}
	}
}

// Only what the log still tells is written into the rig.
func TestAcceptRefusesWhatTheLogDoesNotTell(t *testing.T) {
	v := visitLog(t)
	res := v.post("/keep/accept", url.Values{"path": {"bank.series"}, "value": {"14"}})
	if status, _ := v.read(res); status != http.StatusConflict || v.onDisk() != wren {
		t.Errorf("status %d", status)
	}
	if res := v.post("/keep/accept", url.Values{}); res.StatusCode != http.StatusBadRequest {
		t.Errorf("nothing: %d", res.StatusCode)
	}
}

func TestWorkerLiesAtTheRoot(t *testing.T) {
	v := visitLog(t)
	status, body := v.get("/keep-worker.js")
	if status != http.StatusOK || !strings.Contains(body, "ampstead-keep") {
		t.Errorf("status %d", status)
	}
}

// A backup put in the logbook's place is what is read from then on.
func TestLogbookExchangedBeneath(t *testing.T) {
	v := visitLog(t)
	v.post("/keep/reading/new", entryOf("one", "3.91", "3.912", "3.905"))
	_, copied := v.get("/keep/logbook.sqlite")
	v.clock = v.clock.AddDate(0, 0, 1)
	v.post("/keep/reading/new", entryOf("two", "3.90", "3.902", "3.895"))
	path := filepath.Join(filepath.Dir(v.file), store.FileName)
	for _, tail := range []string{"-wal", "-shm"} {
		os.Remove(path + tail)
	}
	if err := os.WriteFile(path+".new", []byte(copied), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path+".new", path); err != nil {
		t.Fatal(err)
	}
	_, body := v.get("/keep")
	if strings.Contains(body, "3.895") || !strings.Contains(body, "3.905 to 3.912") {
		t.Error("the old logbook is still shown")
	}
}
