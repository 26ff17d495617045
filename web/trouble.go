package web

import (
	"errors"
	"io/fs"
	"net/http"
	"path/filepath"
	"strings"

	"ampstead/rig"
)

type troublePage struct {
	Frame    frame
	File     string // name of the file
	Gone     bool   // there is no file at all
	Why      string // when it cannot be opened
	Problems []problemLine
	Parsed   bool // the file reads well, but the stage cannot work with it
	Editor   *editor
	Undo     int // number of the newest version that can be read as a rig, 0 for none
}

// problemLine is one mistake with the line it is on.
type problemLine struct {
	Line    int
	Excerpt string // the line as written
	Path    string
	Message string
	Want    string // what was expected, with an example
}

// trouble shows what is wrong with the file and the file itself, to be mended
// by hand: the form needs a file that can be read.
func (s *site) trouble(w http.ResponseWriter, r *http.Request, now *reading) {
	p := troublePage{Frame: s.frame(r, "", "The rig file", now), File: filepath.Base(s.desk.path), Parsed: now.file != nil}
	if now.missing != nil {
		p.Gone = errors.Is(now.missing, fs.ErrNotExist)
		p.Why = plainReason(now.missing)
		s.render(w, http.StatusNotFound, "trouble", p)
		return
	}
	p.Problems = problemLines(string(now.text), now.problems)
	p.Editor = &editor{Text: string(now.text), Stamp: now.stamp, Lines: strings.Count(string(now.text), "\n") + 1}
	if back, err := rig.UndoOf(s.desk.path, now.text); err == nil {
		p.Undo = back.Number
	}
	p.Frame.Scripts = []string{"text.js"}
	s.render(w, http.StatusOK, "trouble", p)
}

// sound returns the rig as it is now; when it cannot be reckoned with, it answers
// with what is wrong and returns nil.
func (s *site) sound(w http.ResponseWriter, r *http.Request) *reading {
	now := s.look(r)
	if now.result == nil {
		s.trouble(w, r, now)
		return nil
	}
	return now
}

// posted reads the form of a request about a sound rig; nil when it has answered.
func (s *site) posted(w http.ResponseWriter, r *http.Request) *reading {
	if !readForm(w, r) {
		return nil
	}
	return s.sound(w, r)
}

func problemLines(text string, list rig.Errors) []problemLine {
	lines := strings.Split(text, "\n")
	var out []problemLine
	for _, p := range list {
		l := problemLine{Line: p.Line, Path: p.Path, Message: p.Message, Want: want(p)}
		if p.Line >= 1 && p.Line <= len(lines) {
			l.Excerpt = strings.TrimRight(lines[p.Line-1], "\r")
		}
		out = append(out, l)
	}
	return out
}

// want says what was expected in one sentence, or "".
func want(p *rig.Problem) string {
	switch {
	case p.Expected != "" && p.Example != "":
		return "Expected " + p.Expected + ", such as " + p.Example + "."
	case p.Expected != "":
		return "Expected " + p.Expected + "."
	case p.Example != "":
		return "Such as " + p.Example + "."
	}
	return ""
}
