package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"path/filepath"
	"time"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/sheet"
	"ampstead/store"
)

type keepPage struct {
	Frame   frame
	Sheet   *sheet.Model // with the log; nil when that cannot be read
	Said    string       // what the request before did
	Wrong   string       // why it came to nothing
	Trouble string       // why the logbook cannot be read
	Form    entryForm
	Live    *liveNow // nil while nothing is read beside the page
	Key     string   // of the rig, for the browser's own store
	Doings  []string
	Series  int
	Done    []doneRow
	Meters  []meterRow
	Writes  []writeRow
	File    string
	Running *running // the years ahead being run
	Stopped bool     // the years ahead were not, or no longer, run
	Failed  string   // why they could not be
	Version int
}

type doneRow struct{ When, What, Note string }

type meterRow struct{ Name, Step, Error string }

// told is a logbook and what keep makes of it.
type told struct {
	log logbook.Log
	res *keep.Result
}

// tell reads the logbook of a rig and reckons.
func (s *site) tell(r *http.Request, now *reading) (told, error) {
	log, err := s.ledger.read(r.Context(), now.file)
	if err != nil {
		return told{}, err
	}
	res, err := log.Keep(r.Context(), now.file, now.result, s.config.Now(), false)
	return told{log, res}, err
}

// keep shows how the bank is doing and takes readings.
func (s *site) keep(w http.ResponseWriter, r *http.Request) {
	s.showKeep(w, r, http.StatusOK, entryForm{}, "")
}

// showKeep renders the page with a form as it was sent, or a fresh one.
func (s *site) showKeep(w http.ResponseWriter, r *http.Request, status int, form entryForm, wrong string) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	p := keepPage{Frame: s.frame(r, "keep", "Keep", now), Wrong: wrong, Said: keptWords(r.URL.Query()), Key: s.rigKey(now.file),
		Doings: doings, Series: now.file.Rig.Bank.Series, File: filepath.Base(now.file.Path)}
	p.Frame.Scripts, p.Frame.Back = []string{"keep.js"}, s.at("/keep")
	if p.Live = s.liveNow(s.units(r, now)); p.Live != nil {
		p.Frame.Scripts = append(p.Frame.Scripts, "watch.js")
	}
	t, err := s.tell(r, now)
	if err != nil {
		p.Trouble = plainReason(err)
	} else {
		s.fillKeep(r, &p, now, t)
	}
	p.Form = form
	p.Form.complete(now, t.log, s.config.Now())
	s.render(w, status, "keep", p)
}

func (s *site) fillKeep(r *http.Request, p *keepPage, now *reading, t told) {
	s.fillLife(r, p, now, &t)
	zone := s.config.Now().Location()
	p.Sheet = now.sheet().WithLog(t.res, logbook.In(t.log.Readings, zone))
	for i := len(t.log.Done) - 1; i >= 0; i-- {
		d := t.log.Done[i]
		p.Done = append(p.Done, doneRow{d.At.In(zone).Format("2 January 2006"), d.What, d.Note})
	}
	for _, m := range t.log.Meters {
		p.Meters = append(p.Meters, meterRow{m.Name, milli(m.StepV), milli(m.ErrorV)})
	}
	for _, c := range t.res.Back {
		p.Writes = append(p.Writes, writeRow{c.Path, c.Now, c.Value})
	}
}

func milli(v float64) string { return fmt.Sprintf("%g mV", float64(int64(v*1e6+0.5))/1e3) }

// keptWords says what the request before did.
func keptWords(q url.Values) string {
	switch q.Get("done") {
	case "stored":
		return "The reading is stored."
	case "known":
		return "This reading was stored already; it is there once."
	case "corrected":
		return "The correction is stored as a new version."
	case "withdrawn":
		return "The reading is withdrawn; its versions stay."
	case "noted":
		return "Noted. Drift is reckoned anew from there."
	case "meter":
		return "The meter is entered."
	case "written":
		return "Written into the rig. Fit, drill and travel reckon with it from now on."
	case "imported":
		return fmt.Sprintf("%s new readings, %s were there already.", cmp.Or(q.Get("fresh"), "0"), cmp.Or(q.Get("known"), "0"))
	}
	return ""
}

// entryForm is the form for a reading, as sent or fresh.
type entryForm struct {
	ID      string
	Version int // of the reading it corrects; 0 for a new one
	Taken   string
	Groups  []entryField
	Fields  map[string]string // the others by name
	Wrong   map[string]string // by name
	Sure    string            // content that was asked back about
	Rests   []restChoice
	Meters  []string
	Low     string // range of plausible cell voltages
	High    string
	US      bool
	Doubts  bool // something was asked back
}

// entryField is the field of one group.
type entryField struct {
	N                int
	Value, Last      string
	Question, Offers string // what looks like a slip, and what was perhaps meant
	Wrong            string
}

// restChoice is how long the bank had rested.
type restChoice struct {
	Hours, Text string
	Chosen      bool
}

// rests are the choices a thumb can reach; another number is kept as it is.
var rests = []restChoice{{Hours: "", Text: "not known"}, {Hours: "0.1", Text: "just now"}, {Hours: "1", Text: "an hour"}, {Hours: "3", Text: "3 hours"}, {Hours: "8", Text: "a night"}, {Hours: "24", Text: "a day or more"}}

// As far beyond its limits a value could still be a living cell's: keep.Question
// asks by the same bounds.
const (
	lowestShare = 0.4 // of the lower limit
	aboveMax    = 0.4 // V over the upper one
)

// complete fills what the page adds to a form: last values, choices, the ID.
func (f *entryForm) complete(now *reading, log logbook.Log, at time.Time) {
	if f.ID == "" {
		f.ID = logbook.NewID()
	}
	if f.Fields == nil {
		f.Fields = map[string]string{"meter": log.Meter()}
	}
	last := log.Last(now.file.Rig.Bank.Series)
	for i := range last {
		if i >= len(f.Groups) {
			f.Groups = append(f.Groups, entryField{N: i + 1})
		}
		if last[i] != nil && f.Version == 0 {
			f.Groups[i].Last = sheet.Cell(*last[i])
		}
	}
	f.chooseRest()
	for _, m := range log.Meters {
		f.Meters = append(f.Meters, m.Name)
	}
	for _, m := range now.file.Rig.Protection.Meters {
		f.addMeter(m.Name)
	}
	f.Low, f.High = fmt.Sprintf("%.2f", lowestShare*now.result.Kind.MinV.Value), fmt.Sprintf("%.2f", now.result.Kind.MaxV.Value+aboveMax)
	f.US = now.units != 0
}

func (f *entryForm) addMeter(name string) {
	for _, known := range f.Meters {
		if known == name {
			return
		}
	}
	f.Meters = append(f.Meters, name)
}

func (f *entryForm) chooseRest() {
	found := false
	for _, c := range rests {
		c.Chosen = c.Hours == f.Fields["rested"]
		found = found || c.Chosen
		f.Rests = append(f.Rests, c)
	}
	if !found {
		f.Rests = append(f.Rests, restChoice{f.Fields["rested"], f.Fields["rested"] + " h", true})
	}
}

// formOf is the form of a reading that is stored, for its correction.
func formOf(r store.Reading, us bool) entryForm {
	f := entryForm{ID: r.ID, Version: r.Version, Taken: r.Taken.Format("2006-01-02T15:04"), Fields: map[string]string{"meter": r.Meter, "note": r.Note}}
	for i, v := range r.Groups {
		field := entryField{N: i + 1}
		if v != nil {
			field.Value = sheet.Cell(*v)
		}
		f.Groups = append(f.Groups, field)
	}
	for name, v := range map[string]*float64{"bank": r.BankV, "current": r.Amps, "counter": r.CountAh, "rested": r.RestH} {
		if v != nil {
			f.Fields[name] = fmt.Sprintf("%g", *v)
		}
	}
	for i, t := range r.TempsC {
		if us {
			t = t*1.8 + 32
		}
		if i > 0 {
			f.Fields["temps"] += " "
		}
		f.Fields["temps"] += fmt.Sprintf("%.1f", t)
	}
	return f
}
