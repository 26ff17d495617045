package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"

	"ampstead/fit"
	"ampstead/keep"
)

// yearsRun is what the progress of the years ahead counts.
const yearsRun = "steps done"

// lifeStamp tells one state of rig and logbook from another.
func lifeStamp(now *reading, t told) *reading {
	stamp := now.stamp
	for _, r := range t.log.Readings {
		stamp += fmt.Sprintf("\n%s %d", r.ID, r.Version)
	}
	for _, d := range t.log.Done {
		stamp += "\n" + d.ID
	}
	return &reading{stamp: stampOf([]byte(stamp))}
}

// fillLife puts the years ahead into the page, where they were run.
func (s *site) fillLife(r *http.Request, p *keepPage, now *reading, t *told) {
	j := s.lives.known(lifeStamp(now, *t))
	if j == nil {
		p.Stopped = true
		return
	}
	j.wait(r.Context(), patience)
	var in *fit.InputError
	switch {
	case !j.over():
		p.Running = p.Frame.follow(&j.task, yearsRun)
	case j.stopped():
		p.Stopped = true
	case errors.As(j.err, &in):
		p.Stopped, p.Failed = true, in.Path+": "+in.Message+"; expected "+in.Expected
	case j.err != nil:
		p.Stopped, p.Failed = true, plainReason(j.err)
	default:
		t.res = j.result
	}
}

// lifeRun begins the years ahead, or stops them.
func (s *site) lifeRun(w http.ResponseWriter, r *http.Request) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	t, err := s.tell(r, now)
	if err != nil {
		s.showKeep(w, r, http.StatusServiceUnavailable, entryForm{}, "The years ahead cannot be run: "+plainReason(err)+".")
		return
	}
	at := s.config.Now()
	if r.PostForm.Get("do") == "stop" {
		s.lives.stop(lifeStamp(now, t))
	} else {
		s.lives.again()
		s.lives.of(lifeStamp(now, t), func(ctx context.Context, _ *job[*keep.Result]) (*keep.Result, error) {
			return t.log.Keep(ctx, now.file, now.result, at, true)
		})
	}
	http.Redirect(w, r, s.at("/keep#life"), http.StatusSeeOther)
}

// keepProgress answers how far the years ahead are.
func (s *site) keepProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	if now := s.look(r); now.result != nil {
		if t, err := s.tell(r, now); err == nil {
			if j := s.lives.known(lifeStamp(now, t)); j != nil {
				answer = j.running(yearsRun)
			}
		}
	}
	answer.send(w)
}
