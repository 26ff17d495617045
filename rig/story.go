package rig

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"sync"
	"time"

	"ampstead/history"
)

// Event is one version of a rig file and what it changed.
type Event struct {
	Number   int          `json:"number"` // 0 for what the file holds now, where that is not kept yet
	Time     time.Time    `json:"time"`   // UTC
	Kind     history.Kind `json:"kind"`
	Of       int          `json:"of"`         // number of the version it put back, 0 for none
	File     string       `json:"file"`       // its copy in the folder of the history, "" when it is not kept yet
	Changes  []Changed    `json:"changes"`    // against the version before
	TextOnly bool         `json:"only_text"`  // comments, order or spelling alone
	Unread   string       `json:"unreadable"` // why it cannot be read as a rig, or what it changed not be told; "" when it can
	First    bool         `json:"first"`      // nothing earlier is kept
}

// Story is what became of a rig file.
type Story struct {
	Events  []Event           // the newest first
	Older   int               // versions that are kept before these
	Strange []history.Strange // in the folder of the history, and no version
	Undo    int               // number of the version that undo puts back, 0 for none
	Redo    int
}

// StoryOf tells the newest versions, at most so many; with before, of those with a
// smaller number. Error: what the disk says.
func StoryOf(path string, before, most int) (*Story, error) {
	return new(Chronicle).StoryOf(path, before, most)
}

// Chronicle remembers what versions changed, which takes time to find out and does
// not change any more. The zero Chronicle knows nothing yet.
type Chronicle struct {
	mu   sync.Mutex
	told map[[2]string]Event // by the files of a version and of the one before it
}

// mostTold bounds what is remembered.
const mostTold = 1000

func (c *Chronicle) known(key [2]string) (Event, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e, ok := c.told[key]
	return e, ok
}

func (c *Chronicle) remember(key [2]string, e Event) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.told == nil || len(c.told) >= mostTold {
		c.told = map[[2]string]Event{}
	}
	c.told[key] = e
}

// StoryOf is the function of that name, quicker the second time.
func (c *Chronicle) StoryOf(path string, before, most int) (*Story, error) {
	path = filePath(path)
	all, odd, err := history.List(path)
	if err != nil {
		return nil, err
	}
	s := &Story{Strange: odd}
	now, err := readWhole(path)
	if err != nil {
		return nil, err
	}
	s.steps(path, now)
	present, err := unkept(path, now, all)
	if err != nil {
		return nil, err
	}
	t := &teller{chronicle: c, path: path, now: now, all: append(all, present...)}
	for i := len(t.all) - 1; i >= 0; i-- {
		switch {
		case before > 0 && t.number(i) >= before:
		case len(s.Events) == most:
			s.Older = i + 1
			return s, nil
		default:
			s.Events = append(s.Events, t.event(i))
		}
	}
	return s, nil
}

// steps finds where undo and redo lead.
func (s *Story) steps(path string, now []byte) {
	if r, err := UndoOf(path, now); err == nil {
		s.Undo = r.Number
	}
	if r, err := RedoOf(path, now); err == nil {
		s.Redo = r.Number
	}
}

// unkept is what the file holds, as a version without a name, unless it is kept.
func unkept(path string, now []byte, all []history.Version) ([]history.Version, error) {
	if held, err := history.Holds(path, now); held || err != nil {
		return nil, err
	}
	kind := history.Outside
	if len(all) == 0 {
		kind = history.Begin
	}
	v := history.Version{Kind: kind}
	if info, err := os.Stat(path); err == nil {
		v.Time = info.ModTime().UTC().Truncate(time.Second)
	}
	return []history.Version{v}, nil
}

// teller reads versions, each once.
type teller struct {
	chronicle *Chronicle

	path string
	now  []byte
	all  []history.Version

	at   int // index of what was read last, less one
	text []byte
	file *File
	err  error
}

// number is that of a version; what is not kept yet follows all.
func (t *teller) number(i int) int {
	if t.all[i].Name == "" && i > 0 {
		return t.all[i-1].Number + 1
	}
	return t.all[i].Number
}

// read gives the text of a version and what it means, or why it means nothing.
func (t *teller) read(i int) ([]byte, *File, error) {
	if t.at == i+1 {
		return t.text, t.file, t.err
	}
	t.at, t.text, t.file, t.err = i+1, t.now, nil, nil
	if t.all[i].Name != "" {
		t.text, t.err = history.Text(t.path, t.all[i].Number)
	}
	if t.err == nil {
		t.file, t.err = Parse(t.path, t.text)
	}
	return t.text, t.file, t.err
}

// event tells of a version, from memory where it was told before.
func (t *teller) event(i int) Event {
	if i == 0 || t.all[i].Name == "" {
		return t.tell(i)
	}
	key := [2]string{t.all[i-1].Name, t.all[i].Name}
	e, known := t.chronicle.known(key)
	if !known {
		e = t.tell(i)
		t.chronicle.remember(key, e)
	}
	return e
}

func (t *teller) tell(i int) Event {
	v := t.all[i]
	e := Event{Number: v.Number, Time: v.Time, Kind: v.Kind, Of: v.Of, Changes: []Changed{}, First: i == 0}
	if v.Name != "" {
		e.File = filepath.Join(filepath.Base(history.Folder(t.path)), v.Name)
	}
	text, is, err := t.read(i)
	if err != nil {
		e.Unread = firstOf(err)
	}
	if i == 0 {
		return e
	}
	before, was, wrong := t.read(i - 1)
	switch {
	case err != nil:
	case wrong != nil:
		e.Unread = "what it changed cannot be told: the version before it cannot be read as a rig"
	default:
		e.Changes = append(e.Changes, Changes(was, is)...)
		e.TextOnly = len(e.Changes) == 0 && !bytes.Equal(before, text)
	}
	return e
}

// firstOf is the first of several problems, without the file's name.
func firstOf(err error) string {
	var problems Errors
	if errors.As(err, &problems) && len(problems) > 0 {
		p := *problems[0]
		p.File = "line"
		return p.Error()
	}
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

// Kept reads a kept version as a rig file of its own. Errors: history.ErrUnknown,
// history.ErrDamaged; Errors when it is no rig.
func Kept(path string, number int) (*File, error) {
	path = filePath(path)
	text, err := history.Text(path, number)
	if err != nil {
		return nil, err
	}
	return parseVersion(path, number, text)
}

// Before is the number of the newest version that can be read as a rig and is not
// what the file holds, 0 for none. Error: what the disk says.
func Before(path string, seen []byte) (int, error) {
	path = filePath(path)
	all, err := history.Names(path)
	if err != nil {
		return 0, err
	}
	for i := len(all) - 1; i >= 0; i-- {
		text, err := history.Text(path, all[i].Number)
		if err != nil || bytes.Equal(text, seen) {
			continue
		}
		if _, err := Parse(path, text); err == nil {
			return all[i].Number, nil
		}
	}
	return 0, nil
}
