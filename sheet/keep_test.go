package sheet_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/internal/golden"
	"ampstead/internal/keepsample"
	"ampstead/keep"
	q "ampstead/quantity"
	"ampstead/sheet"
	"ampstead/store"
)

// logOf is a log with something in every part and text that a page must escape.
func logOf(t testing.TB) (*keep.Result, []store.Reading) {
	v, w := 3.91, 3.945
	res := keepsample.Result(12, 30)
	res.Uses = use(t)
	at := time.Date(2026, 11, 14, 10, 15, 0, 0, time.UTC)
	return res, []store.Reading{{ID: "r1", Version: 1, Taken: at.AddDate(0, 0, -14), Groups: []*float64{&v, nil, &w}}, {ID: "r2", Version: 2, Taken: at, Groups: []*float64{&v, &w}, BankV: &w, TempsC: []float64{18}, Note: "<cold> hands"}}
}

func TestLogAnswer(t *testing.T) {
	res, readings := logOf(t)
	l := model(t, q.Metric).WithLog(res, readings).Log
	got := strings.Join(l.Answer, "\n") + "\n\n"
	for _, row := range l.Today {
		got += strings.Join([]string{row.Tag, row.Urgency, row.Do, row.By, row.Why}, " | ") + "\n"
	}
	got += "\n" + l.Next + " | " + l.NextWhy + "\n\n"
	for _, g := range l.Groups[:5] {
		got += strings.Join(append([]string{g.Name, g.Offset, g.Drift, g.Bleed}, g.Notes...), " | ") + "\n"
	}
	for _, part := range [][]sheet.Reached{l.Facts, l.Visible, l.Aside} {
		got += "\n"
		for _, f := range part {
			got += f.What + " | " + f.Value + " | " + f.Note + "\n"
		}
	}
	got += "\n" + strings.Join(slices.Concat(l.Balance, l.Not, l.Capacity, l.Life, l.LifeNotes), "\n") + "\n"
	golden.Check(t, "keep-answer.txt", []byte(got))
}

func TestLogWithoutReadings(t *testing.T) {
	m := model(t, q.Metric).WithLog(nil, nil)
	if !m.Log.Empty || !strings.Contains(m.Log.Answer[0], "No reading") || len(m.Log.Blank) != 12 {
		t.Errorf("%+v", m.Log)
	}
	if string(m.DriftPicture().Desk) == "" || string(m.AheadPicture().Desk) != "" {
		t.Error("pictures of nothing")
	}
	if got := m.Log.Groups; len(got) != 0 {
		t.Errorf("groups of no reading: %+v", got)
	}
}

func TestLogWithoutDriftSaysWhatWouldShow(t *testing.T) {
	res, readings := logOf(t)
	res.Groups[3].Drifts, res.Today = false, nil
	got := strings.Join(model(t, q.Metric).WithLog(res, readings).Log.Answer, " ")
	if !strings.HasPrefix(got, "No group drifts as far as 2 readings can tell; a leak of 0.60 mA would show.") {
		t.Errorf("%q", got)
	}
}

func TestReadingRows(t *testing.T) {
	res, readings := logOf(t)
	l := model(t, q.US).WithLog(res, readings).Log
	if len(l.Readings) != 2 || l.Readings[0].ID != "r2" || l.Readings[0].Temps != "64.4 °F" || l.Readings[0].Apart != "35 mV" || l.Readings[1].Groups[1] != "–" {
		t.Errorf("%+v", l.Readings)
	}
	var many []store.Reading
	for range 40 {
		many = append(many, readings[0])
	}
	if l := model(t, q.Metric).WithLog(res, many).Log; len(l.Readings) != 30 || l.More != 10 {
		t.Errorf("%d listed, %d more", len(l.Readings), l.More)
	}
}

func TestLogPartsAreWellFormed(t *testing.T) {
	for _, m := range []*sheet.Model{model(t, q.Metric), model(t, q.US)} {
		for _, paper := range []bool{false, true} {
			res, readings := logOf(t)
			with := m.WithLog(res, readings)
			with.Paper = paper
			for _, part := range sheet.Parts {
				if !strings.HasPrefix(part, "keep-") {
					continue
				}
				text := render(t, part, with)
				if err := wellFormed(text); err != nil || text == "" {
					t.Errorf("%s is not well formed: %v\n%s", part, err, text)
				}
				if strings.Contains(text, "<leaks>") || strings.Contains(text, "<cold>") {
					t.Errorf("%s: text was not escaped", part)
				}
			}
		}
	}
}
