package web

import (
	"errors"
	"net/http"
	"path/filepath"
	"strconv"

	"ampstead/choose"
	"ampstead/rig"
)

func fileName(now *reading) string { return filepath.Base(now.file.Path) }

// design finds the design a visitor names, and the rig file it makes.
func (s *site) design(now *reading, name string) (*rig.File, error) {
	res := s.choices.result(now)
	if res == nil {
		return nil, errors.New("there is no search of the rig file as it is now; search again")
	}
	d := designNamed(res, name)
	if d == nil {
		return nil, errors.New("there is no such design")
	}
	return s.choices.apply(now.file, d)
}

// chooseMake makes a design the rig file.
func (s *site) chooseMake(w http.ResponseWriter, r *http.Request) {
	s.rewrite(w, r, "made", http.StatusConflict, func(now *reading) (*rig.File, error) { return s.design(now, r.PostForm.Get("design")) })
}

// rewrite writes what next makes of the rig file in its place, if the visitor saw
// the file as it is now; status answers an error of next.
func (s *site) rewrite(w http.ResponseWriter, r *http.Request, did string, status int, next func(*reading) (*rig.File, error)) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	if r.PostForm.Get("seen") != now.stamp {
		s.showChoose(w, r, http.StatusConflict, searchForm{}, changedMeanwhile)
		return
	}
	file, err := next(now)
	if err != nil {
		s.showChoose(w, r, status, searchForm{}, "Nothing was written: "+plainReason(err)+".")
		return
	}
	s.replace(w, r, now, file.Text, did)
}

const changedMeanwhile = "Nothing was written: the rig file was changed meanwhile. Look at it as it is now, and compare again."

// replace writes another text in place of the rig file, keeps what was there, and
// says so on the page.
func (s *site) replace(w http.ResponseWriter, r *http.Request, now *reading, text []byte, did string) {
	problems, after, err := s.desk.write(text, now.stamp)
	switch {
	case errors.Is(err, errChanged), errors.Is(err, rig.ErrChanged):
		s.showChoose(w, r, http.StatusConflict, searchForm{}, changedMeanwhile)
	case err != nil:
		s.unsaved(w, r, rigUnsaved, err)
	case len(problems) > 0:
		s.showChoose(w, r, http.StatusUnprocessableEntity, searchForm{}, "Nothing was written: "+problems[0].Error()+".")
	default:
		s.choices.remember(now.text, after.stamp)
		http.Redirect(w, r, s.at("/choose?did="+did), http.StatusSeeOther)
	}
}

// remember keeps what the rig file was, for as long as it is what was written.
func (c *choices) remember(before []byte, written string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.before, c.written = before, written
}

func (c *choices) canGoBack(now *reading) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.before != nil && c.written == now.stamp
}

// chooseBack makes the rig file what it was.
func (s *site) chooseBack(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	now := s.look(r)
	if now.file == nil {
		s.trouble(w, r, now)
		return
	}
	if !s.choices.canGoBack(now) {
		s.showChoose(w, r, http.StatusConflict, searchForm{}, changedMeanwhile)
		return
	}
	s.choices.mu.Lock()
	before := s.choices.before
	s.choices.mu.Unlock()
	s.replace(w, r, now, before, "back")
}

// chooseFile sends a design as a new rig file.
func (s *site) chooseFile(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	next, err := s.design(now, r.URL.Query().Get("design"))
	if err != nil {
		http.Error(w, sentences(plainReason(err)), http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+slugOf(now.name())+`-design.yaml"`)
	_, _ = w.Write(next.Text) // a visitor who left is no failure of ours
}

// chooseWindow writes a daily window into the rig file.
func (s *site) chooseWindow(w http.ResponseWriter, r *http.Request) {
	s.rewrite(w, r, "window", http.StatusUnprocessableEntity, func(now *reading) (*rig.File, error) {
		return windowed(now.file, s.choices.result(now), r.PostForm.Get("window"))
	})
}

// windowed is the rig file with a daily window that was tried.
func windowed(file *rig.File, res *choose.Result, name string) (*rig.File, error) {
	if res != nil {
		for _, w := range res.Window {
			if w.Name == name {
				return file.SetAll(rig.Change{Path: "bank.daily.high", Value: cellVolts(w.HighV)}, rig.Change{Path: "bank.daily.low", Value: cellVolts(w.LowV)})
			}
		}
	}
	return nil, errors.New("no such window was tried")
}

func cellVolts(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) + " V" }
