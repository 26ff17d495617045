package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/sheet"
	"ampstead/store"
)

type readingPage struct {
	Frame    frame
	Wrong    string
	Form     entryForm
	Versions []versionRow // the latest first
	Gone     bool
}

// versionRow is one version of a reading.
type versionRow struct {
	sheet.ReadingRow
	Number  int
	Entered string
	Gone    bool
	Values  string
}

// oneReading shows the versions of a reading, with the form to correct it.
func (s *site) oneReading(w http.ResponseWriter, r *http.Request) {
	s.showReading(w, r, http.StatusOK, entryForm{}, "")
}

func (s *site) showReading(w http.ResponseWriter, r *http.Request, status int, form entryForm, wrong string) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	id := r.FormValue("id")
	versions, log, err := s.versionsOf(r, now, id)
	if err != nil {
		http.Error(w, "The logbook cannot be read: "+plainReason(err), http.StatusServiceUnavailable)
		return
	}
	if len(versions) == 0 {
		s.missing(w, r)
		return
	}
	p := readingPage{Frame: s.frame(r, "keep", "A reading", now), Wrong: wrong, Form: form}
	p.Frame.Back, p.Frame.Scripts = s.at("/keep/reading?id="+id), []string{"keep-fields.js"}
	zone := s.config.Now().Location()
	for _, v := range slices.Backward(logbook.In(versions, zone)) {
		row := sheet.RowOf(v, now.units)
		p.Versions = append(p.Versions, versionRow{row, v.Version, v.Entered.Format("2 January 2006 15:04"), v.Gone, strings.Join(row.Groups, " ")})
	}
	latest := logbook.In(versions, zone)[len(versions)-1]
	p.Gone = latest.Gone
	if form.ID == "" {
		p.Form = formOf(latest, now.units == quantity.US)
	}
	p.Form.complete(now, log, s.config.Now())
	s.render(w, status, "reading", p)
}

// versionsOf reads the versions of a reading and the log around it.
func (s *site) versionsOf(r *http.Request, now *reading, id string) ([]store.Reading, logbook.Log, error) {
	book, err := s.ledger.open(r.Context(), now.file, false)
	if err != nil || book == nil {
		return nil, logbook.Log{}, err
	}
	versions, err := book.Versions(r.Context(), id)
	if err != nil {
		return nil, logbook.Log{}, err
	}
	log, err := logbook.Read(r.Context(), book)
	return versions, log, err
}

// correct stores a new version of a reading, or withdraws it.
func (s *site) correct(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	if r.PostForm.Get("do") == "withdraw" {
		s.withdraw(w, r)
		return
	}
	s.entered(w, r, s.showReading, func(r *http.Request, book *store.Book, f entryForm, reading store.Reading) (string, error) {
		reading.Version = f.Version
		_, err := book.Correct(r.Context(), reading)
		return "corrected", err
	})
}

func (s *site) withdraw(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	version, _ := strconv.Atoi(r.PostForm.Get("version")) // no number is no version: refused below
	book, err := s.ledger.open(r.Context(), now.file, true)
	if err == nil {
		err = book.Withdraw(r.Context(), r.PostForm.Get("id"), version, strings.TrimSpace(r.PostForm.Get("why")))
	}
	if err != nil {
		status, why := storeTrouble(err)
		s.showReading(w, r, status, entryForm{}, "Not withdrawn: "+why+".")
		return
	}
	http.Redirect(w, r, s.at("/keep?done=withdrawn"), http.StatusSeeOther)
}
