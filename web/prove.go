package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"time"

	"ampstead/benchlog"
	"ampstead/fit"
	"ampstead/prove"
	"ampstead/sheet"
	"ampstead/shelf"
)

type provePage struct {
	Frame    frame
	Sheet    *sheet.Model // with the proof, once there is one
	Said     string       // what was done by the request before
	Wrong    string       // why the last request came to nothing
	Running  *running
	Trouble  *logTrouble // why the log could not be read
	Kept     []keptLog
	Test     string // the log shown: one that was sent
	Log      string // or one that is kept
	Way      []carried
	Layout   layoutForm
	Writes   []writeRow // what the test would change in the rig
	PlanForm planForm
	File     string // name of the rig file
	Most     string // largest log that may be sent
}

// carried is a name and a value that a form carries along.
type carried struct{ Name, Value string }

// layoutForm is the form by which the columns are set right.
type layoutForm struct {
	Columns []columnRow
	Roles   []string
	Choices map[string]string
	Kept    bool // a layout is kept with the rig
}

// logTrouble says why a log could not be read.
type logTrouble struct {
	Line                       int
	Message, Expected, Example string
}

// keptLog is a log that is kept with the rig.
type keptLog struct {
	Name, Size, When string
	Shown            bool
}

// writeRow is a value of the rig that the test changes.
type writeRow struct{ Path, From, To string }

func (s *site) shelf() shelf.Shelf { return shelf.Of(s.desk.path) }

// prove shows what a log tells: the one that was sent or chosen, or the newest of
// those kept.
func (s *site) prove(w http.ResponseWriter, r *http.Request) {
	s.showProve(w, r, http.StatusOK, "")
}

func (s *site) showProve(w http.ResponseWriter, r *http.Request, status int, wrong string) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	q := r.URL.Query()
	p := provePage{Frame: s.frame(r, "prove", "Prove", now), Wrong: wrong, Said: doneWords(q), Most: sizeText(s.config.mostLog), File: filepath.Base(s.desk.path)}
	p.Frame.Scripts = []string{"prove.js"}
	way := readWay(q)
	p.list(s.shelf(), q)
	if kept, err := s.shelf().Layout(); err == nil {
		p.Layout.Kept = !reflect.DeepEqual(kept, benchlog.Options{})
	}
	t, err := s.chosen(now, p.Test, p.Log, way)
	switch {
	case errors.Is(err, errNoLog):
	case err != nil:
		status, p.Wrong = http.StatusNotFound, sentences(plainReason(err))
	default:
		p.carry(way, t.layout)
		s.fillProof(r, &p, now, s.proofs.of(t))
	}
	s.render(w, status, "prove", p)
}

// doneWords says what the request before did.
func doneWords(q url.Values) string {
	switch q.Get("done") {
	case "kept":
		return "Kept with the rig, in its folder " + shelf.Folder + "."
	case "layout":
		return "The layout of the logs of this rig was saved."
	}
	if n, err := strconv.Atoi(q.Get("saved")); err == nil && n > 0 {
		return fmt.Sprintf("Written into the rig: %d values. Fit, wire and travel reckon with them from now on.", n)
	}
	return ""
}

// list lists the kept logs and finds out which log the page is about.
func (p *provePage) list(on shelf.Shelf, q url.Values) {
	logs, err := on.Logs()
	if err != nil {
		p.Wrong = "The folder " + shelf.Folder + " cannot be read: " + plainReason(err) + "."
	}
	p.Test, p.Log = asked(q, logs)
	for _, l := range logs {
		p.Kept = append(p.Kept, keptLog{l.Name, sizeText(l.Size), l.When.Format("2 January 2006"), p.Test == "" && l.Name == p.Log})
	}
}

// asked tells which log an address asks for: one that was sent, one that is kept,
// or the newest of those.
func asked(q url.Values, logs []shelf.Log) (test, log string) {
	test, log = q.Get("test"), q.Get("log")
	if test == "" && log == "" && len(logs) > 0 {
		log = logs[0].Name
	}
	return test, log
}

var errGone = errors.New("this log is not here, or no longer held: send it again")

// chosen is the task of reading the log the page is about. Errors: errNoLog when
// it is about none.
func (s *site) chosen(now *reading, test, log string, way url.Values) (logTask, error) {
	t := logTask{known: shelf.Known(now.file.Rig, now.result), stamp: now.stamp}
	kept, err := s.shelf().Layout()
	if err != nil {
		return t, err
	}
	t.layout = shelf.Over(kept, layoutOf(way))
	if n := t.layout.Groups; n > 0 {
		t.known.Groups = n
	}
	switch {
	case test != "":
		u := s.proofs.sent(test)
		if u == nil {
			return t, errGone
		}
		t.source, t.name, t.size = "sent "+u.id, u.name, u.size
		t.open = func() (*os.File, error) { return os.Open(u.path) }
	case log != "":
		file, err := s.shelf().Open(log)
		if err != nil {
			return t, errGone
		}
		defer file.Close()
		info, err := file.Stat()
		if err != nil {
			return t, errGone
		}
		t.source, t.name, t.size = fmt.Sprint("kept ", log, info.ModTime().UnixNano(), info.Size()), log, info.Size()
		t.open = func() (*os.File, error) { return s.shelf().Open(log) }
	default:
		return t, errNoLog
	}
	return t, nil
}

// carry puts the way of reading into the forms.
func (p *provePage) carry(way url.Values, layout benchlog.Options) {
	for _, key := range append([]string{"column"}, wayKeys...) {
		for _, v := range way[key] {
			p.Way = append(p.Way, carried{key, v})
		}
	}
	p.Layout.Choices = map[string]string{"separator": layout.Separator, "decimal": layout.Decimal, "time": layout.Time, "sign": layout.Sign}
	if layout.Groups > 0 {
		p.Layout.Choices["groups"] = strconv.Itoa(layout.Groups)
	}
}

// logRead is what the progress of reading counts.
const logRead = "MB read"

// fillProof puts what a job found, or how far it is, into the page.
func (s *site) fillProof(r *http.Request, p *provePage, now *reading, j *job[*prove.Result]) {
	j.wait(r.Context(), patience)
	if !j.over() {
		p.Running = p.Frame.follow(&j.task, logRead)
		return
	}
	if j.err != nil {
		p.Trouble = troubleOf(j.err)
		return
	}
	name := p.Log
	if u := s.proofs.sent(p.Test); u != nil {
		name = u.name
	}
	p.Sheet = now.sheet().WithProof(name, j.result)
	p.Layout.Columns, p.Layout.Roles = columnRows(j.result.Layout), roleChoices(j.result.Layout)
	p.Writes = writesOf(now.file, j.result, s.config.Now().Format(time.DateOnly))
}

func troubleOf(err error) *logTrouble {
	var log *benchlog.Error
	var in *fit.InputError
	switch {
	case errors.As(err, &log):
		return &logTrouble{log.Line, log.Message, log.Expected, log.Example}
	case errors.As(err, &in):
		return &logTrouble{0, in.Path + ": " + in.Message, in.Expected, in.Example}
	}
	return &logTrouble{Message: plainReason(err)}
}

// proveProgress answers the page's question how far reading is.
func (s *site) proveProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	q := r.URL.Query()
	if now := s.look(r); now.result != nil {
		logs, _ := s.shelf().Logs() // the page says what is wrong with the folder
		test, log := asked(q, logs)
		if t, err := s.chosen(now, test, log, readWay(q)); err == nil {
			answer = s.proofs.of(t).running(logRead)
		}
	}
	answer.send(w)
}
