package web

import (
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/store"
)

// otherFields are the fields of a reading besides its groups, by their name in the
// form and as keep.Doubt names them.
var otherFields = map[string]string{"bank": "bank_v", "current": "current_a", "temps": "temperatures_c", "rested": "rested_h", "counter": "counter_ah", "meter": "meter", "note": "note", "taken": "taken"}

// readEntryForm takes the form as it was sent.
func readEntryForm(from url.Values, series int) entryForm {
	f := entryForm{ID: from.Get("id"), Taken: strings.TrimSpace(from.Get("taken")), Sure: from.Get("sure"), Fields: map[string]string{}, Wrong: map[string]string{}}
	f.Version, _ = strconv.Atoi(from.Get("version")) // no number: a new reading
	for i := range series {
		f.Groups = append(f.Groups, entryField{N: i + 1, Value: strings.TrimSpace(from.Get("group." + strconv.Itoa(i+1)))})
	}
	for name := range otherFields {
		f.Fields[name] = strings.TrimSpace(from.Get(name))
	}
	return f
}

func (f *entryForm) entry() logbook.Entry {
	e := logbook.Entry{ID: f.ID, Taken: f.Taken, Bank: f.Fields["bank"], Current: f.Fields["current"], Temps: f.Fields["temps"],
		Rested: f.Fields["rested"], Counter: f.Fields["counter"], Meter: f.Fields["meter"], Note: f.Fields["note"]}
	for _, g := range f.Groups {
		e.Groups = append(e.Groups, g.Value)
	}
	return e
}

// field finds where a message about a field belongs: a group, or the name of
// another field.
func (f *entryForm) field(name string) (group *entryField, other string) {
	if n, ok := strings.CutPrefix(name, "groups."); ok {
		if i, err := strconv.Atoi(n); err == nil && i >= 1 && i <= len(f.Groups) {
			return &f.Groups[i-1], ""
		}
	}
	if strings.HasPrefix(name, "temperatures.") {
		return nil, "temps"
	}
	for field, doubted := range otherFields {
		if doubted == name {
			return nil, field
		}
	}
	return nil, "form"
}

func (f *entryForm) mark(wrong logbook.Mistakes) {
	for _, m := range wrong {
		if group, other := f.field(m.Field); group != nil {
			group.Wrong = m.Message
		} else {
			f.Wrong[other] = m.Message
		}
	}
}

// question puts what looks like a slip beside its field.
func (f *entryForm) question(doubts []keep.Doubt) {
	f.Doubts = true
	for _, d := range doubts {
		if group, other := f.field(d.Field); group != nil {
			group.Question, group.Offers = d.Found, d.Perhaps
		} else {
			f.Wrong[other] = d.Found
		}
	}
}

// enterReading takes a reading from the form.
func (s *site) enterReading(w http.ResponseWriter, r *http.Request) {
	s.entered(w, r, s.showKeep, s.storeNew)
}

type (
	showForm  func(w http.ResponseWriter, r *http.Request, status int, f entryForm, wrong string)
	storeForm func(r *http.Request, book *store.Book, f entryForm, reading store.Reading) (done string, err error)
)

// entered reads a form, asks back about slips, and stores it; new readings and
// corrections differ in how.
func (s *site) entered(w http.ResponseWriter, r *http.Request, show showForm, put storeForm) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	f := readEntryForm(r.PostForm, now.file.Rig.Bank.Series)
	reading, err := f.entry().Reading(s.config.Now(), now.units)
	var wrong logbook.Mistakes
	if errors.As(err, &wrong) {
		f.mark(wrong)
		show(w, r, http.StatusUnprocessableEntity, f, "Not stored: look at the fields that are marked.")
		return
	}
	book, err := s.ledger.open(r.Context(), now.file, true)
	if err != nil {
		show(w, r, storeStatus(err), f, "Not stored: "+plainReason(err)+".")
		return
	}
	doubts, content, err := s.doubts(r, book, now, reading)
	if err == nil && len(doubts) > 0 && f.Sure != content {
		f.question(doubts)
		f.Sure = content
		show(w, r, http.StatusConflict, f, "Not stored yet: some values look like slips. Mend them, or store the reading as it is.")
		return
	}
	f.Sure = ""
	var done string
	if err == nil {
		done, err = put(r, book, f, reading)
	}
	if err != nil {
		status, why := storeTrouble(err)
		show(w, r, status, f, "Not stored: "+why+".")
		return
	}
	http.Redirect(w, r, s.at("/keep?done="+done), http.StatusSeeOther)
}

// doubts asks about slips; content tells what was asked about, so that a later
// change is asked about again.
func (s *site) doubts(r *http.Request, book *store.Book, now *reading, reading store.Reading) (list []keep.Doubt, content string, err error) {
	before, err := book.Readings(r.Context())
	if err != nil {
		return nil, "", err
	}
	others := before[:0]
	for _, b := range before {
		if b.ID != reading.ID {
			others = append(others, b)
		}
	}
	values := reading
	values.Taken = s.config.Now().Truncate(24 * 3600e9) // the question stands though some minutes pass
	reading.Entered = s.config.Now()                    // one of a day to come is asked about
	return keep.Question(now.file.Rig, others, reading), logbook.ContentID(values), nil
}

// storeNew stores a new reading. A form that was sent twice is stored once, also
// when its time is that of sending.
func (s *site) storeNew(r *http.Request, book *store.Book, f entryForm, reading store.Reading) (string, error) {
	versions, err := book.Versions(r.Context(), reading.ID)
	if err != nil {
		return "", err
	}
	if len(versions) > 0 && f.Taken == "" {
		reading.Taken = versions[0].Taken
	}
	_, fresh, err := book.Add(r.Context(), reading)
	if err == nil && !fresh {
		return "known", nil
	}
	return "stored", err
}

// storeTrouble says why something could not be stored, and whose fault it is.
func storeTrouble(err error) (status int, why string) {
	var invalid *store.Invalid
	switch {
	case errors.As(err, &invalid):
		return http.StatusUnprocessableEntity, invalid.Message + "; expected " + invalid.Expected
	case errors.Is(err, store.ErrConflict):
		return http.StatusConflict, "another reading was stored under the same ID; correct it in the list of readings"
	case errors.Is(err, store.ErrChanged):
		return http.StatusConflict, "someone corrected this reading meanwhile; look at it again"
	case errors.Is(err, store.ErrUnknown):
		return http.StatusNotFound, "there is no such reading"
	}
	return storeStatus(err), plainReason(err)
}
