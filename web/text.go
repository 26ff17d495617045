package web

import (
	"net/http"
	"path/filepath"
	"strconv"
	"strings"

	"ampstead/history"
	"ampstead/rig"
)

type textPage struct {
	Frame    frame
	File     string
	Problems []problemLine
	Saved    bool
	Version  int // whose text it is; 0 for the file as it is
	Editor   *editor
}

// editor is the whole file in one text field.
type editor struct {
	Text    string
	Stamp   string // of the file this text was made from
	Lines   int
	Changed string // the file as it is now, when it was changed meanwhile
}

func (s *site) text(w http.ResponseWriter, r *http.Request) {
	now := s.desk.read()
	if now.missing != nil {
		s.trouble(w, r, now)
		return
	}
	if r.URL.Query().Has("version") {
		s.textOf(w, r, now)
		return
	}
	text := string(now.text)
	s.showText(w, r, http.StatusOK, textPage{
		Problems: problemLines(text, now.problems),
		Saved:    r.URL.Query().Has("saved"),
		Editor:   &editor{Text: text, Stamp: now.stamp},
	}, now)
}

// textOf shows the text of a kept version, to be saved in the place of the file.
func (s *site) textOf(w http.ResponseWriter, r *http.Request, now *reading) {
	number, _ := strconv.Atoi(r.URL.Query().Get("version"))
	kept, err := history.Text(s.desk.path, number)
	if err != nil {
		_, said := refusedReturn(err)
		s.showHistory(w, r, http.StatusNotFound, firstWord(said, func() string { return sentences(plainReason(err)) }))
		return
	}
	p := textPage{Version: number, Editor: &editor{Text: string(kept), Stamp: now.stamp}}
	if _, err := rig.Parse(p.File, kept); err != nil {
		p.Problems = problemLines(string(kept), problemsOf(s.desk.path, err))
	}
	s.showText(w, r, http.StatusOK, p, now)
}

func (s *site) showText(w http.ResponseWriter, r *http.Request, status int, p textPage, now *reading) {
	p.Frame = s.frame(r, "rig", "Rig as text", now)
	p.Frame.Scripts = []string{"text.js"}
	p.File = filepath.Base(s.desk.path)
	p.Editor.Lines = strings.Count(p.Editor.Text, "\n") + 1
	s.render(w, status, "text", p)
}

// saveText takes the whole file. It is written only when it can be read as a
// rig and nobody changed the file meanwhile.
func (s *site) saveText(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	text := strings.ReplaceAll(r.PostForm.Get("text"), "\r\n", "\n") // browsers send CRLF
	problems, now, err := s.desk.write([]byte(text), r.PostForm.Get("seen"))
	switch {
	case err == errChanged:
		s.showText(w, r, http.StatusConflict, textPage{
			Editor: &editor{Text: text, Stamp: now.stamp, Changed: string(now.text)},
		}, now)
	case err != nil:
		s.unsaved(w, r, rigUnsaved, err)
	case len(problems) > 0:
		s.showText(w, r, http.StatusUnprocessableEntity, textPage{
			Problems: problemLines(text, problems),
			Editor:   &editor{Text: text, Stamp: r.PostForm.Get("seen")},
		}, now)
	default:
		http.Redirect(w, r, s.at("/rig/text?saved=1"), http.StatusSeeOther)
	}
}
