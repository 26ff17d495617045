package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"ampstead/fit"
)

// waiting is what a page shows in place of a result that is not there.
type waiting struct {
	Running *running
	Lacking *lacking // what the file does not say
	Trouble string   // why there is no result otherwise
	Stopped bool
}

// lacking says what a stage needs and the file does not give.
type lacking struct{ Path, Message, Expected, Example string }

// ready reports whether a task has its result; if not, the page says why, and
// asks again by itself while it runs. what names what its progress counts.
func (p *waiting) ready(t *task, f *frame, what string) bool {
	if !t.over() {
		p.Running = f.follow(t, what)
		return false
	}
	var in *fit.InputError
	switch {
	case t.stopped():
		p.Stopped = true
	case errors.As(t.err, &in):
		p.Lacking = &lacking{in.Path, in.Message, in.Expected, in.Example}
	case t.err != nil:
		p.Trouble = t.err.Error()
	default:
		return true
	}
	return false
}

// follow says how far a task is, and lets the page ask again by itself.
func (f *frame) follow(t *task, what string) *running {
	f.Scripts, f.Refresh = append(f.Scripts, "progress.js"), true
	now := t.running(what)
	return &now
}

// steered is a run that a page stops, and begins again when it was stopped.
type steered interface {
	stop(now *reading)
	again()
}

// steer answers the form by which a page stops its run or begins it again.
func (s *site) steer(page string, run steered) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !readForm(w, r) {
			return
		}
		if r.PostForm.Get("do") == "stop" {
			run.stop(s.look(r))
		} else {
			run.again()
		}
		http.Redirect(w, r, s.at(page), http.StatusSeeOther)
	}
}

// send answers a page's question how far a run is.
func (r running) send(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_ = json.NewEncoder(w).Encode(r) // a visitor who left is no failure of ours
}
