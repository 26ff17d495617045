package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"ampstead/choose"
	"ampstead/fit"
	"ampstead/rig"
)

// choosing compares and searches: choose.Run and choose.Apply, or what a test puts
// in their place.
type choosing struct {
	run   func(ctx context.Context, r *rig.Rig, o choose.Options) (*choose.Result, error)
	apply func(file *rig.File, d *choose.Design) (*rig.File, error)
}

// searchForm is what a visitor wants searched, as it was typed.
type searchForm struct{ Designs, Budget, Mass, Short, Life string }

// The number of rigs a search from the page tries.
const (
	usualDesigns = 400
	mostDesigns  = 5000
)

// choices compares batteries and searches rigs in the background.
type choices struct {
	choosing
	both   kept[*choose.Result] // the comparison
	search kept[*choose.Result]

	mu    sync.Mutex
	stamp string // content the search belongs to
	form  searchForm
	state []byte // of the search, to go on with

	before  []byte // what the rig file was before a design was written
	written string // stamp of what was written
}

func newChoices(c choosing, q *queue) *choices {
	return &choices{choosing: c, both: kept[*choose.Result]{queue: q}, search: kept[*choose.Result]{queue: q}}
}

// compared returns the job of the comparison, started when there is none.
func (c *choices) compared(now *reading) *job[*choose.Result] {
	return c.both.of(now, func(ctx context.Context, j *job[*choose.Result]) (*choose.Result, error) {
		return c.run(ctx, now.file.Rig, choose.Options{Progress: j.progress})
	})
}

// searching returns the search of this content, if there is one, and what it is
// for.
func (c *choices) searching(now *reading) (*job[*choose.Result], searchForm) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.stamp != now.stamp {
		return nil, searchForm{Designs: strconv.Itoa(usualDesigns)}
	}
	return c.search.known(now), c.form
}

// begin starts a search, in place of the one there was; one for the same goes on
// from where it was stopped.
func (c *choices) begin(now *reading, form searchForm, o choose.Options) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.stamp != now.stamp || c.form != form {
		c.state = nil
	}
	c.stamp, c.form = now.stamp, form
	o.Search, o.Resume = true, c.state
	c.search.anew(now, func(ctx context.Context, j *job[*choose.Result]) (*choose.Result, error) {
		o.Progress = j.progress
		o.Save = func(state []byte) error { c.keep(now.stamp, form, state); return nil }
		return c.run(ctx, now.file.Rig, o)
	})
}

// keep takes the state of a search unless another one has begun.
func (c *choices) keep(stamp string, form searchForm, state []byte) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.stamp == stamp && c.form == form {
		c.state = state
	}
}

// end stops everything.
func (c *choices) end() {
	c.both.end()
	c.search.end()
}

// result is the best there is: a search with its comparison, or that alone.
func (c *choices) result(now *reading) *choose.Result {
	return cmp.Or(resultOf(c.search.known(now)), resultOf(c.both.known(now)))
}

// options reads a search form.
func (f searchForm) options(r *rig.Rig) (choose.Options, error) {
	n, err := strconv.Atoi(strings.TrimSpace(f.Designs))
	if err != nil || n < 1 || n > mostDesigns {
		return choose.Options{}, fmt.Errorf("rigs to try: expected a number from 1 to %d", mostDesigns)
	}
	o := choose.Options{Designs: n}
	err = choose.Wishes{Budget: f.Budget, Mass: f.Mass, Short: f.Short, Life: f.Life}.Into(&o, r)
	var in *fit.InputError
	if errors.As(err, &in) {
		return o, fmt.Errorf("%s: %s; expected %s, such as %s", fieldNames[in.Path], in.Message, in.Expected, in.Example)
	}
	return o, err
}

var fieldNames = map[string]string{"budget": "price at most", "mass": "mass at most", "short": "hours short at most", "life": "years at least"}

// chooseSearch begins a search, goes on with it, or stops it.
func (s *site) chooseSearch(w http.ResponseWriter, r *http.Request) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	if r.PostForm.Get("do") == "stop" {
		s.choices.search.stop(now)
		http.Redirect(w, r, s.at("/choose#search"), http.StatusSeeOther)
		return
	}
	form := searchForm{r.PostForm.Get("designs"), r.PostForm.Get("budget"), r.PostForm.Get("mass"), r.PostForm.Get("short"), r.PostForm.Get("life")}
	o, err := form.options(now.file.Rig)
	if err != nil {
		s.showChoose(w, r, http.StatusUnprocessableEntity, form, sentences(err.Error()))
		return
	}
	s.choices.begin(now, form, o)
	http.Redirect(w, r, s.at("/choose#search"), http.StatusSeeOther)
}
