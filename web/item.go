package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"ampstead/rig"
)

// item is something of the form that can be taken out or copied.
type item struct {
	rig.Item
	This string   // "this charger", "the case"
	Held []link   // what names it
	Goes []string // what goes with it
}

func newItem(from rig.Item) *item {
	it := &item{Item: from, This: "this " + from.One}
	if !from.Copies {
		it.This = "the " + from.One
	}
	for _, path := range from.HeldBy {
		it.Held = append(it.Held, link{To: placeOnForm(path, ""), Text: plainWords(lastStep(outerPath(path)))})
	}
	for _, path := range from.With {
		it.Goes = append(it.Goes, plainWords(lastStep(path)))
	}
	return it
}

// Along says what goes with it, in words.
func (it item) Along() string { return strings.Join(it.Goes, ", ") }

// addition is something that can be added, with what was typed for it.
type addition struct {
	rig.Addition
	ID    string
	A     string // "a charger", "the heater"
	Typed map[string]string
	Wrong string
	Open  bool
}

func newAddition(from rig.Addition, tried attempt) addition {
	a := addition{Addition: from, ID: "a-" + elementID(from.Path), A: article(from.One)}
	if !from.List {
		a.A = "the " + from.One
	}
	if tried.Path == from.Path {
		a.Typed, a.Wrong, a.Open = tried.Values, tried.Wrong, true
	}
	return a
}

// ChoiceText is what a word to choose says.
func (a addition) ChoiceText(word string) string { return wordText(a.Key, word) }

func article(one string) string {
	if strings.ContainsRune("aeiou", rune(one[0])) {
		return "an " + one
	}
	return "a " + one
}

// did says what was done to the rig as a whole, and what can be undone.
type did struct {
	Kind  string
	Steps steps
}

var didText = map[string]string{
	"added":   "Added. What is marked as an example is not yours yet.",
	"copied":  "Copied. Give it a name of its own, and change what differs.",
	"removed": "Removed.",
	"checked": "Noted as checked.",
	"undo":    "Undone.",
	"redo":    "Done again.",
}

// Text says what was done.
func (d did) Text() string { return didText[d.Kind] }

// act changes the items of a file: it returns the new file and the path to go to.
type act func(f *rig.File) (next *rig.File, at string, err error)

var errHeld = errors.New("something else in the file still names it; change that first")

// acts are what can be done to an item, by the word before the path.
var acts = map[string]struct {
	did  string
	does func(path string, form url.Values) act
}{
	"add":    {"added", adds},
	"copy":   {"copied", copies},
	"remove": {"removed", removes},
	"check":  {"checked", checks},
}

func adds(path string, form url.Values) act {
	return func(f *rig.File) (*rig.File, string, error) { return f.Add(path, newValues(form)) }
}

// newValues are what was typed for a new item, by key.
func newValues(form url.Values) map[string]string {
	values := map[string]string{}
	for key, typed := range form {
		if key, ok := strings.CutPrefix(key, "new."); ok && strings.TrimSpace(typed[0]) != "" {
			values[key] = strings.TrimSpace(typed[0])
		}
	}
	return values
}

func copies(path string, _ url.Values) act {
	return func(f *rig.File) (*rig.File, string, error) { return f.Copy(path) }
}

func removes(path string, _ url.Values) act {
	return func(f *rig.File) (*rig.File, string, error) {
		for _, it := range rig.FormOf(f).Items {
			if it.Path != path {
				continue
			}
			if len(it.HeldBy) > 0 {
				return nil, "", errHeld
			}
			next, err := f.Remove(append(slices.Clone(it.With), path)...)
			return next, outerPath(path), err
		}
		return nil, "", errors.New("it is no longer in the file")
	}
}

func checks(path string, _ url.Values) act {
	return func(f *rig.File) (*rig.File, string, error) {
		next, err := f.Checked(path)
		return next, path, err
	}
}

// item adds, copies, removes or checks one thing of the rig; what was typed in the
// same form is saved with it.
func (s *site) item(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	word, path, _ := strings.Cut(r.PostForm.Get("do"), ":")
	what, known := acts[word]
	edits, ok := anyEdits(r.PostForm)
	if !ok || !known || path == "" {
		http.Error(w, "This form says nothing that can be done.", http.StatusBadRequest)
		return
	}
	out, err := s.desk.perform(edits, errand{
		path: path, seen: r.PostForm.Get("seen"), strict: word != "add",
		does: func(path string) act { return what.does(path, r.PostForm) },
	})
	out.show(func(now *reading) *reading { return now.in(s.units(r, now)) })
	tried := attempt{}
	if out.Refused.Act != "" && word == "add" {
		tried = attempt{path, newValues(r.PostForm), out.Refused.Act}
	}
	switch live := r.Header.Get("Accept") == "application/json"; {
	case err != nil:
		s.unsaved(w, r, rigUnsaved, err)
	case live:
		s.answerItem(w, r, what.did, out, tried)
	case out.Refused.any():
		if tried.Path == "" && out.Refused.Act != "" {
			out.Refused.Other = append(out.Refused.Other, out.Refused.Act)
		}
		s.showRefusal(w, r, edits, out, tried)
	default:
		http.Redirect(w, r, s.at("/rig?"+wentTo(what.did, out.At)), http.StatusSeeOther)
	}
}

// wentTo is where a visitor goes after an item was changed: into what is new, else
// to where it was.
func wentTo(did, at string) string {
	to := url.Values{"did": {did}}
	switch did {
	case "added", "copied":
		to.Set("new", at)
		return to.Encode()
	case "checked":
		to.Set("at", at)
		return to.Encode() + "#" + elementID(at)
	}
	if strings.Count(at, ".") > 0 && !strings.HasPrefix(at, "protection.") || at == "bank" {
		to.Set("at", at)
	}
	return to.Encode() + "#g-" + elementID(groupPath(at))
}

// groupPath is the group of the form a path belongs to.
func groupPath(path string) string {
	steps := strings.Split(path, ".")
	if steps[0] == "protection" && len(steps) > 1 {
		return steps[0] + "." + steps[1]
	}
	return steps[0]
}

// answerItem sends what became of an item to a page that is open.
func (s *site) answerItem(w http.ResponseWriter, r *http.Request, kind string, out outcome, tried attempt) {
	a := liveAnswer{Saved: !out.Refused.any(), Stamp: out.After.stamp, Fields: map[string]liveField{}, Parts: map[string]string{}}
	status := http.StatusOK
	want := soughtOf(r.PostForm)
	if a.Saved {
		a.Say = didText[kind]
		if s := out.After.since; s != nil && (len(s.Gone) > 0 || len(s.New) > 0) {
			a.Say += " " + s.Text() + "."
		}
		want.Find = ""
		if kind == "added" || kind == "copied" {
			want.New, a.Go = out.At, elementID(out.At)
		} else {
			a.Go = "stay"
		}
	} else {
		status, want.Add = refusedStatus(out.Refused), tried
		a.Say = "Nothing was changed. " + strings.Join(append(out.Refused.Other, out.Refused.Act), " ")
	}
	if out.After.file != nil {
		parts, err := s.wholeParts(out.After, want)
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
