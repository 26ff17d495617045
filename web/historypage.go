package web

import (
	"net/http"
	"path/filepath"
	"strconv"

	"ampstead/history"
	"ampstead/rig"
)

type historyPage struct {
	Frame   frame
	File    string // name of the rig file
	Folder  string // name of the folder of the versions
	Stamp   string
	Events  []eventRow
	Older   int // number to ask for those before by; 0 when there are none
	Count   int // how many those are
	Newer   bool
	Undo    int
	Redo    int
	Done    string
	Wrong   string
	Strange []history.Strange
	Why     string // the folder cannot be read
}

// eventRow is one version as the page shows it.
type eventRow struct {
	rig.Event
	Before  int // number of the version before it, 0 for none
	Present bool
	Changes []rig.Changed
	More    int // changes that are not listed
}

// On one page: versions, and changes of each.
const (
	mostEvents  = 15
	mostChanges = 5
)

// history shows every version of the rig file, the newest first.
func (s *site) history(w http.ResponseWriter, r *http.Request) {
	s.showHistory(w, r, http.StatusOK, "")
}

func (s *site) showHistory(w http.ResponseWriter, r *http.Request, status int, wrong string) {
	now := s.look(r)
	if now.missing != nil {
		s.trouble(w, r, now)
		return
	}
	p := historyPage{Frame: s.frame(r, "rig", "History", now), File: filepath.Base(s.desk.path),
		Folder: filepath.Base(history.Folder(s.desk.path)), Stamp: now.stamp, Wrong: wrong}
	p.Frame.Back = s.at("/rig/history")
	p.said(r)
	before, _ := strconv.Atoi(r.URL.Query().Get("before"))
	story, err := s.story.StoryOf(s.desk.path, before, mostEvents)
	if err != nil {
		p.Why = plainReason(err)
		s.render(w, status, "history", p)
		return
	}
	p.fill(story)
	p.Newer = before > 0
	s.render(w, status, "history", p)
}

// said is what the request before this one did.
func (p *historyPage) said(r *http.Request) {
	query := r.URL.Query()
	of, err := strconv.Atoi(query.Get("of"))
	if r.Method != http.MethodGet || err != nil {
		return
	}
	number := strconv.Itoa(of)
	switch query.Get("did") {
	case "undo":
		p.Done = "Undone: the file is what version " + number + " was."
	case "redo":
		p.Done = "Done again: the file is what version " + number + " was."
	case "back":
		p.Done = "Version " + number + " is put back."
	}
}

func (p *historyPage) fill(story *rig.Story) {
	p.Undo, p.Redo, p.Strange = story.Undo, story.Redo, story.Strange
	for i, e := range story.Events {
		row := eventRow{Event: e, Present: i == 0 && e.Number == 0, Changes: e.Changes}
		if len(row.Changes) > mostChanges {
			row.Changes, row.More = row.Changes[:mostChanges], len(e.Changes)-mostChanges
		}
		if i > 0 {
			p.Events[i-1].Before = e.Number
		}
		p.Events = append(p.Events, row)
	}
	if n := len(p.Events); n > 0 && story.Older > 0 {
		p.Older, p.Count = p.Events[n-1].Number, story.Older
	}
}

// When is the time as a person at this machine reads it.
func (e eventRow) When() string { return e.Time.Local().Format("2 January 2006, 15:04") }

// How says in words how the version came about.
func (e eventRow) How() string {
	of := strconv.Itoa(e.Of)
	switch e.Kind {
	case history.Begin:
		return "the beginning"
	case history.Edit:
		return "edited"
	case history.Undo:
		return "undone, back to " + of
	case history.Redo:
		return "done again, as " + of
	case history.Back:
		return of + " put back"
	}
	return "changed by another program"
}
