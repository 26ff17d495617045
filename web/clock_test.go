package web

import (
	"context"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ampstead/store"
)

// A reading dated in the future, by a clock that was wrong or a slip, is asked back
// about: in the form and where the page sends what it kept.
func TestAReadingOfTheFutureIsQuestioned(t *testing.T) {
	v := visitLog(t)
	f := entryOf("p1", "3.91", "3.92", "3.91")
	f.Set("taken", "2031-01-05T09:00")
	status, body := v.read(v.post("/keep/reading/new", f))
	if status != http.StatusConflict || !strings.Contains(body, "after the day it is entered") {
		t.Errorf("by the form: %d", status)
	}
	_, body = v.sendJSON(`{"ask":true,"readings":[{"id":"p2","taken":"2031-01-05T09:00:00Z","groups_v":[3.91,3.92,3.91]}]}`)
	if !strings.Contains(body, "after the day it is entered") || strings.Contains(body, `"stored":true`) {
		t.Errorf("sent later: %s", body)
	}
}

// Readings and notes lie in the future, because the clock was ahead when they were
// entered and is right again now: every page still answers, and the calendar's next
// visit is no day that has passed.
func TestPagesWhenTheClockJumps(t *testing.T) {
	v := visitLog(t, standIns)
	day := v.clock
	v.clock = day.AddDate(6, 0, 0)
	v.visitsAhead("a", "b", "c")
	if res := v.post("/rig/set", form("", "about.note", "", "written ahead of time")); res.StatusCode != http.StatusSeeOther {
		t.Fatal(v.read(res))
	}
	for _, now := range []time.Time{day, day.AddDate(-30, 0, 0), time.Unix(0, 0).UTC(), day.AddDate(40, 0, 0)} {
		v.clock = now
		for _, path := range append([]string{"/keep/calendar.ics", "/keep/readings.csv", "/keep/logbook.json"}, allPages...) {
			if status, body := v.get(path); status != http.StatusOK {
				t.Errorf("%s in %d: %d %.300s", path, now.Year(), status, body)
			}
		}
		_, calendar := v.get("/keep/calendar.ics")
		for line := range strings.Lines(calendar) {
			if day, ok := strings.CutPrefix(strings.TrimSpace(line), "DTSTART;VALUE=DATE:"); ok && day < now.Format("20060102") {
				t.Errorf("in %d the calendar names %s", now.Year(), day)
			}
		}
		if res := v.post("/rig/set", form("", "about.note", noteOf(v), "written in "+now.Format("2006"))); res.StatusCode != http.StatusSeeOther {
			_, body := v.read(res)
			t.Errorf("an edit in %d: %d %.300s", now.Year(), res.StatusCode, body)
		}
	}
}

// visitsAhead puts readings into the logbook by the visitor's clock.
func (v *visitor) visitsAhead(ids ...string) {
	v.t.Helper()
	ctx := context.Background()
	book, err := store.Open(ctx, filepath.Dir(v.file), store.Options{Rig: "Wren", Now: v.now})
	if err != nil {
		v.t.Fatal(err)
	}
	defer book.Close()
	for i, id := range ids {
		r := store.Reading{ID: id, Taken: v.clock.AddDate(0, 0, i-len(ids)), Entered: v.clock}
		for _, cell := range []float64{3.91, 3.92, 3.91 - float64(i)/100} {
			r.Groups = append(r.Groups, &cell)
		}
		if _, _, err := book.Add(ctx, r); err != nil {
			v.t.Fatal(err)
		}
	}
}

// noteOf is the rig's note as it stands in the file.
func noteOf(v *visitor) string {
	for line := range strings.Lines(v.onDisk()) {
		if _, note, ok := strings.Cut(line, "note: "); ok {
			return strings.Trim(strings.TrimSpace(note), `"'}`)
		}
	}
	return ""
}
