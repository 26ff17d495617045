package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/store"
)

// doings are the words for what was done that keep understands.
var doings = []string{"balanced", "charged full", "group exchanged", "capacity test", "other"}

// note stores what was done to the bank.
func (s *site) note(w http.ResponseWriter, r *http.Request) {
	s.toBook(w, r, "noted", func(now *reading, book *store.Book) error {
		d := store.Done{At: s.config.Now(), What: r.PostForm.Get("what"), Note: strings.TrimSpace(r.PostForm.Get("note"))}
		if text := r.PostForm.Get("at"); text != "" {
			at, ok := logbook.Instant(text, s.config.Now().Location())
			if !ok {
				return &store.Invalid{Field: "at", Message: "“" + text + "” is no time", Expected: "one such as 2026-11-20 17:30"}
			}
			d.At = at
		}
		for i, text := range logbook.Values(r.PostForm.Get("ah")) {
			v, err := strconv.ParseFloat(strings.Replace(strings.TrimSuffix(text, " Ah"), ",", ".", 1), 64)
			if text != "" && err != nil {
				return &store.Invalid{Field: "ah", Message: fmt.Sprintf("“%s” of group %d is no number", text, i+1), Expected: "Ah for each group, such as 0 0 -2.1"}
			}
			d.Ah = append(d.Ah, v)
		}
		if n := now.file.Rig.Bank.Series; len(d.Ah) > n {
			return &store.Invalid{Field: "ah", Message: fmt.Sprintf("%d values", len(d.Ah)), Expected: fmt.Sprintf("at most %d, one for each group", n)}
		}
		if text := strings.TrimSpace(r.PostForm.Get("value")); text != "" {
			v, err := strconv.ParseFloat(strings.Replace(strings.TrimSuffix(text, "Ah"), ",", ".", 1), 64)
			if err != nil {
				return &store.Invalid{Field: "value", Message: "“" + text + "” is no number", Expected: "Ah"}
			}
			d.Value = &v
		}
		d.ID = logbook.DoneID(d)
		return book.AddDone(r.Context(), d)
	})
}

// enterMeter stores a meter.
func (s *site) enterMeter(w http.ResponseWriter, r *http.Request) {
	s.toBook(w, r, "meter", func(_ *reading, book *store.Book) error {
		m := store.Meter{Name: strings.TrimSpace(r.PostForm.Get("name"))}
		for name, to := range map[string]*float64{"step": &m.StepV, "error": &m.ErrorV} {
			text := strings.Replace(strings.TrimSpace(r.PostForm.Get(name)), ",", ".", 1)
			v, err := quantity.Volts.Parse(text + " mV")
			if err != nil {
				v, err = quantity.Volts.Parse(text)
			}
			if err != nil {
				return &store.Invalid{Field: name, Message: "“" + text + "” is no voltage", Expected: "millivolts, such as 5"}
			}
			*to = v
		}
		return book.SetMeter(r.Context(), m)
	})
}

// toBook does something with the logbook that a form asks for.
func (s *site) toBook(w http.ResponseWriter, r *http.Request, done string, do func(*reading, *store.Book) error) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	book, err := s.ledger.open(r.Context(), now.file, true)
	if err == nil {
		err = do(now, book)
	}
	if err != nil {
		status, why := storeTrouble(err)
		s.showKeep(w, r, status, entryForm{}, "Not stored: "+why+".")
		return
	}
	http.Redirect(w, r, s.at("/keep?done="+done), http.StatusSeeOther)
}
