package book_test

import (
	"strings"
	"testing"
	"time"

	"ampstead/internal/keepsample"
	q "ampstead/quantity"
	"ampstead/store"
)

// The chapter of the logbook comes with its pictures and a sheet to fill by hand;
// where no reading is there, the sheet alone; and every link keeps its place.
func TestTheLogbook(t *testing.T) {
	m := model(t, "curlew", q.Metric)
	v := 3.91
	readings := []store.Reading{{ID: "r1", Version: 1, Taken: time.Date(2026, 11, 14, 10, 0, 0, 0, time.UTC), Groups: []*float64{&v}, Note: "<cold>"}}
	text := write(t, m.WithLog(keepsample.Result(12, 30), readings))
	for _, want := range []string{"The logbook", "drift-860-title", "bleed-860-title", "capacity-860-title", "ahead-860-title", "Readings by hand", "14 November 2026", "&lt;cold&gt;",
		"group 4 &lt;leaks&gt;", `those of the log in <a href="#log">`, "Next visit: <b>10 January 2027</b>"} {
		if !strings.Contains(strings.ReplaceAll(text, "Group 4 &lt;leaks", "group 4 &lt;leaks"), want) {
			t.Errorf("the book lacks %q", want)
		}
	}
	hangsTogether(t, text)
	blank := write(t, m.WithLog(nil, nil))
	if !strings.Contains(blank, "Readings by hand") || strings.Contains(blank, ">The logbook<") {
		t.Error("a logbook without readings is not a sheet to fill by hand alone")
	}
	if strings.Contains(write(t, m), "Readings by hand") {
		t.Error("a book without a logbook has the sheet")
	}
}
