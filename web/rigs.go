package web

import (
	"context"
	"fmt"
	"net/http"
	"runtime"
	"sync"
	"time"

	"ampstead/finding"
	"ampstead/home"
	"ampstead/quantity"
)

type rigsPage struct {
	Frame   frame
	Alone   bool // one rig is served alone
	Rigs    []rigColumn
	Why     string // the workshop cannot be read
	Waiting int    // rigs that are still being read
}

// rigColumn is one rig of the workshop beside the others.
type rigColumn struct {
	To, Name, Folder, Note string
	Anchor                 string
	Tally                  string
	First                  actRow // the first thing to do today
	Facts                  []rigFact
	Damage                 *home.Damage
	Waiting                bool
}

type rigFact struct{ What, Value, Tag string }

// readPatience is how long the page of all rigs waits for those that were not read
// before.
const readPatience = 150 * time.Millisecond

// rigs shows the rigs of the workshop side by side.
func (h *hall) rigs(w http.ResponseWriter, r *http.Request) {
	p := rigsPage{Frame: h.frame(r, "rigs", "Rigs"), Alone: h.workshop == nil}
	if p.Alone {
		h.render(w, http.StatusNotFound, "rigs", p)
		return
	}
	slugs, err := h.workshop.slugs()
	if err != nil {
		p.Why = plainReason(err)
	}
	read := h.workshop.readAll(slugs, readPatience)
	for _, slug := range slugs {
		switch s := read[slug]; {
		case s != nil:
			p.Rigs = append(p.Rigs, s.column(r, h.workshop.address(slug), slug))
		default:
			p.Waiting++
			p.Rigs = append(p.Rigs, rigColumn{To: h.workshop.address(slug) + "/", Name: slug, Anchor: slug, Waiting: true})
		}
	}
	h.render(w, http.StatusOK, "rigs", p)
}

// column says of a rig what stands beside the others. It begins no run.
func (s *site) column(r *http.Request, address, slug string) rigColumn {
	now := s.look(r)
	c := rigColumn{To: address + "/", Name: now.name(), Folder: slug, Anchor: slug}
	if c.Name == "" {
		c.Name = slug
	}
	if now.missing != nil {
		c.Damage = &home.Damage{Message: plainReason(now.missing)}
		return c
	}
	known := s.known(r.Context(), now)
	return s.columns.of(stateOf(now, &known), func() rigColumn {
		res := home.Of(known)
		c.Note, c.Damage = res.Note, res.Damage
		if c.Damage != nil {
			return c
		}
		c.Tally, c.Facts = tallyText(res), factsOf(now, res)
		if len(res.Today) > 0 {
			c.First = actRow{res.Today[0], address + now.places().act(res.Today[0])}
		}
		return c
	})
}

// rigState tells one state of what is known of a rig from another, by the day.
type rigState struct {
	now   *reading
	known [6]any // results
	runs  string
	day   string
}

func stateOf(now *reading, k *home.Known) rigState {
	return rigState{now, [6]any{k.Travel, k.Drill, k.Proof, k.Kept, k.Choice, k.Log}, fmt.Sprint(k.Runs), k.Now.Format(time.DateOnly)}
}

// columns keeps a rig's column while nothing about it changes.
type columns struct {
	mu   sync.Mutex
	at   rigState
	last *rigColumn
}

func (c *columns) of(at rigState, make func() rigColumn) rigColumn {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.last == nil || c.at != at {
		fresh := make()
		c.at, c.last = at, &fresh
	}
	return *c.last
}

// factsOf are the rows of a rig, the same for every one.
func factsOf(now *reading, res *home.Result) []rigFact {
	cell, daily, units := now.result.Cell, now.result.Daily, now.units
	bank := quantity.AmpereHours.Text(cell.Capacity, units) + ", " + cell.Name + ", " + joinedAs(cell.Series, cell.Parallel)
	list := []rigFact{{What: "bank", Value: bank}, {What: "daily window", Value: span(daily.BankLowV, daily.BankHighV)}, {What: "usable in it", Value: quantity.WattHours.Text(daily.UsableWh, units)}}
	for _, stage := range res.Stages {
		tag := ""
		if stage.Standing == home.Stop {
			tag = string(finding.Stop)
		}
		state := stage.State
		if stage.Standing == home.Running {
			state = stage.Standing.Words() + ": " + state
		}
		list = append(list, rigFact{titleOf(stage.Name), sentences(state), tag})
	}
	return list
}

// joinedAs says how the cells are joined.
func joinedAs(series, parallel int) string {
	if parallel > 1 {
		return fmt.Sprintf("%d groups of %d cells", series, parallel)
	}
	return fmt.Sprintf("%d groups", series)
}

// readAll reads rigs, a few at a time, and returns those that were read within a
// time. What it began goes on, so that the next request finds more.
func (w *workshop) readAll(slugs []string, patience time.Duration) map[string]*site {
	late := time.NewTimer(patience)
	defer late.Stop()
	done := w.reading.begin(w, slugs)
	select {
	case <-done:
	case <-late.C:
	}
	return w.reading.have(slugs)
}

// rigReader reads the rigs of a workshop ahead of who asks for them.
type rigReader struct {
	mu   sync.Mutex
	busy chan struct{} // closed when what goes on has ended; nil while nothing does
	read map[string]*site
}

// begin reads the given rigs where nothing is being read, and tells of its end.
func (b *rigReader) begin(w *workshop, slugs []string) <-chan struct{} {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.busy != nil {
		return b.busy
	}
	busy := make(chan struct{})
	end := func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.busy = nil
		close(busy)
	}
	if !w.hall.queue.also(func() { defer end(); b.all(w, slugs) }) {
		close(busy) // the server is being closed
		return busy
	}
	b.busy = busy
	return busy
}

func (b *rigReader) all(w *workshop, slugs []string) {
	next := make(chan string)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for slug := range next {
				b.one(w, slug)
			}
		})
	}
	for _, slug := range slugs {
		next <- slug
	}
	close(next)
	all.Wait()
}

func (b *rigReader) one(w *workshop, slug string) {
	s, ok := w.site(slug)
	if !ok {
		return
	}
	now := s.desk.read()
	if now.result != nil {
		_, _ = s.heard.of(context.Background(), s, now) // the column says what is wrong with it
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.read == nil {
		b.read = map[string]*site{}
	}
	b.read[slug] = s
}

func (b *rigReader) have(slugs []string) map[string]*site {
	b.mu.Lock()
	defer b.mu.Unlock()
	list := map[string]*site{}
	for _, slug := range slugs {
		list[slug] = b.read[slug]
	}
	return list
}
