package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"ampstead/history"
	"ampstead/rig"
)

// errOffPage says that a version holds what a page may not change.
var errOffPage = errors.New("it holds what a page may not change")

// finder finds a kept version to put in the place of what the file holds.
type finder func(path string, seen []byte) (*rig.Return, error)

// comeBack puts a kept version back, if the file is the one seen. Errors: errChanged;
// errOffPage; those of the finder; what the disk says. Nothing was written then.
func (d *desk) comeBack(find finder, seen string) (out outcome, back *rig.Return, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.readLocked()
	out = outcome{Before: now, After: now}
	if now.missing != nil {
		return out, nil, now.missing
	}
	if now.stamp != seen {
		return out, nil, errChanged
	}
	if back, err = find(d.path, now.text); err != nil {
		return out, nil, err
	}
	if offPage(now.file, back.File) != "" && !(now.file == nil && stoodThere(now.text, back.File)) {
		return out, nil, errOffPage
	}
	if err := back.Save(); errors.Is(err, rig.ErrChanged) {
		out.After = d.readLocked()
		return out, nil, errChanged
	} else if err != nil {
		return out, nil, err
	}
	d.last = readingOf(back.File)
	d.last.since = sinceOf(now, d.last)
	out.After = d.last
	return out, back, nil
}

// undo takes the last edit back, or what was done again.
func (s *site) undo(w http.ResponseWriter, r *http.Request) { s.comeBack(w, r, "undo", rig.UndoOf) }

// redo does again what was undone last.
func (s *site) redo(w http.ResponseWriter, r *http.Request) { s.comeBack(w, r, "redo", rig.RedoOf) }

// putBack puts any version back.
func (s *site) putBack(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	number, err := strconv.Atoi(r.PostForm.Get("version"))
	if err != nil || number < 1 {
		http.Error(w, "Which version is to be put back? Its number is missing.", http.StatusBadRequest)
		return
	}
	s.comeBack(w, r, "back", func(path string, seen []byte) (*rig.Return, error) { return rig.BackTo(path, seen, number) })
}

func (s *site) comeBack(w http.ResponseWriter, r *http.Request, did string, find finder) {
	if !readForm(w, r) {
		return
	}
	out, back, err := s.desk.comeBack(find, r.PostForm.Get("seen"))
	out.show(func(now *reading) *reading { return now.in(s.units(r, now)) })
	live := r.Header.Get("Accept") == "application/json"
	status, said := refusedReturn(err)
	switch {
	case err != nil && status == 0:
		s.unsaved(w, r, rigUnsaved, err)
	case live:
		s.answerReturn(w, r, out, status, firstWord(said, func() string { return returned(did, back, out) }))
	case err != nil:
		s.showHistory(w, r, status, said)
	case r.PostForm.Get("page") == "form":
		http.Redirect(w, r, s.at("/rig?did="+did), http.StatusSeeOther)
	default:
		to := url.Values{"did": {did}, "of": {strconv.Itoa(back.Number)}}
		http.Redirect(w, r, s.at("/rig/history?"+to.Encode()), http.StatusSeeOther)
	}
}

func firstWord(said string, other func() string) string {
	if said != "" {
		return said
	}
	return other()
}

// refusedReturn is what is said when a version was not put back; 0 when the disk did
// not take it.
func refusedReturn(err error) (status int, said string) {
	var problems rig.Errors
	switch {
	case err == nil:
		return http.StatusOK, ""
	case errors.Is(err, errChanged):
		return http.StatusConflict, "Nothing was put back: the file was changed meanwhile, and is shown as it is now."
	case errors.Is(err, errOffPage):
		return http.StatusUnprocessableEntity, "Nothing was put back. That version differs in something else too: " + offPageReason
	case errors.Is(err, rig.ErrNoUndo), errors.Is(err, rig.ErrNoRedo), errors.Is(err, rig.ErrPresent):
		return http.StatusConflict, sentences(err.Error())
	case errors.Is(err, history.ErrUnknown):
		return http.StatusNotFound, "Nothing was put back: no such version is kept."
	case errors.Is(err, history.ErrDamaged):
		return http.StatusConflict, "Nothing was put back: that version is damaged or was changed by hand."
	case errors.As(err, &problems):
		return http.StatusUnprocessableEntity, "Nothing was put back: that version is no rig as it stands. Open its text instead, and mend it there."
	}
	return 0, ""
}

// returned says what was put back, to a visitor of the form.
func returned(did string, back *rig.Return, out outcome) string {
	word := map[string]string{"undo": "Undone", "redo": "Done again"}[did]
	if word == "" {
		word = fmt.Sprintf("Version %d is put back", back.Number)
	}
	if out.Before.file == nil {
		return word + "."
	}
	return word + ". " + changedWords(rig.Changes(out.Before.file, out.After.file))
}

// changedWords says in a sentence what the file now holds.
func changedWords(list []rig.Changed) string {
	if len(list) == 0 {
		return "Only comments, order or spelling differ."
	}
	c := list[0]
	text := c.Label + " is " + clipped(c.Is, 40)
	switch {
	case c.Whole && c.Is != "":
		text = c.Label + " is there again"
	case c.Is == "" && c.Whole:
		text = c.Label + " is gone"
	case c.Is == "":
		text = c.Label + " is not given"
	}
	if n := len(list) - 1; n > 0 {
		text += fmt.Sprintf(", and %d more changed", n)
	}
	return sentences(text)
}

// clipped cuts a text to so many letters.
func clipped(text string, most int) string {
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return text
}

// answerReturn sends what a form that is open needs: all of it as it is now.
func (s *site) answerReturn(w http.ResponseWriter, r *http.Request, out outcome, status int, said string) {
	a := liveAnswer{Saved: status == http.StatusOK, Say: said, Stamp: out.After.stamp, Fields: map[string]liveField{}, Parts: map[string]string{}}
	if out.After.file != nil {
		parts, err := s.wholeParts(out.After, soughtOf(r.PostForm))
		if err == nil {
			err = s.addSteps(parts, out.After)
		}
		if err != nil {
			http.Error(w, "The answer could not be made: "+err.Error(), http.StatusInternalServerError)
			return
		}
		a.Parts = parts
	}
	sendLive(w, status, a)
}

// steps is what a form offers after something was saved.
type steps struct {
	Stamp      string
	Undo, Redo bool
}

func (s *site) stepsOf(now *reading) steps {
	_, none := rig.UndoOf(s.desk.path, now.text)
	_, noMore := rig.RedoOf(s.desk.path, now.text)
	return steps{now.stamp, none == nil, noMore == nil}
}

// addSteps puts what the form offers next among the parts of an answer.
func (s *site) addSteps(parts map[string]string, now *reading) (err error) {
	parts["did"], err = s.part("did", did{Steps: s.stepsOf(now)})
	return err
}
