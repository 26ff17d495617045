package web

import (
	"errors"
	"net/http"
	"sync"
	"time"

	"ampstead/choose"
	"ampstead/compare"
	"ampstead/drill"
	"ampstead/figure"
	"ampstead/internal/lan"
	"ampstead/keep"
	"ampstead/live"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/secret"
	"ampstead/travel"
)

// Config says which rig is served and to whom.
type Config struct {
	Path       string           // rig folder or file, shown at "/"; empty where only a workshop is
	Workshop   string           // folder whose sub-folders hold rigs; empty to show one rig alone
	Units      quantity.System  // shown where neither the visitor nor the rig file says
	Passphrase string           // its hash, made by secret.Hash; empty: this machine only, and no passphrase is asked
	Names      []string         // names of this machine beyond its own that it answers to, with a passphrase
	Version    string           // of the program, shown at the foot
	Figures    []*figure.Figure // the handbook; empty leaves it out
	Live       *live.Monitor    // what reads live values beside the page; nil for none. It ends before the page does.
	Now        func() time.Time // the clock; nil is time.Now
	Store      string           // logbook on a database server, postgres://...; empty for the one in the rig's folder

	reach func() []lan.Address // how other devices reach this machine; nil is lan.Addresses

	still   bool   // begins nothing that nobody asked for
	reckon  reckon // nil is travel.Run
	prover  prover // nil is prove.Run
	mostLog int64  // largest log that may be sent, bytes; 0 is 512 MB

	drilling drilling // without functions, those of drill
	choosing choosing // without functions, those of choose

	comparing comparer // nil is compare.Run
}

// site is the pages of one rig.
type site struct {
	*hall
	pages    func() http.Handler // what answers below base, made when first asked for
	base     string              // what its addresses begin with; "" for the rig at "/"
	desk     *desk
	views    *views
	live     *live.Monitor // nil where nothing is read beside the pages
	trips    *trips
	drills   *drills
	choices  *choices
	compares *compares
	story    rig.Chronicle
	proofs   *proofs
	ledger   *ledger
	lives    *kept[*keep.Result] // the years ahead
	heard    heard
	glances  glances
	columns  columns
}

// pages is the handler of all pages with the runs behind them.
type pages struct {
	http.Handler
	hall *hall
}

// Close ends every run behind the pages.
func (p *pages) Close() error {
	p.hall.end()
	return nil
}

// New makes the handler of all pages. The rig may be missing or damaged: the
// pages then say so. The handler is an io.Closer: closing it ends what it reckons
// in the background. Errors: the hash of the passphrase cannot be read; neither a rig
// nor a workshop.
func New(config Config) (http.Handler, error) {
	if err := config.complete(); err != nil {
		return nil, err
	}
	h, err := newHall(config)
	if err != nil {
		return nil, err
	}
	return &pages{guard(compress(h.private(h.routes())), newHosts(config.Passphrase != "", config.Names)), h}, nil
}

// complete checks the settings and fills in what was left out.
func (c *Config) complete() error {
	if c.Passphrase != "" {
		if err := secret.Readable(c.Passphrase); err != nil {
			return err
		}
	}
	if c.Path == "" && c.Workshop == "" {
		return errors.New("there is neither a rig nor a workshop to show")
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.reach == nil {
		c.reach = lan.Addresses
	}
	if c.reckon == nil {
		c.reckon = travel.Run
	}
	if c.prover == nil {
		c.prover = prove.Run
	}
	if c.mostLog == 0 {
		c.mostLog = mostLog
	}
	if c.drilling.run == nil {
		c.drilling = drilling{drill.Run, drill.Play}
	}
	if c.choosing.run == nil {
		c.choosing = choosing{choose.Run, choose.Apply}
	}
	if c.comparing == nil {
		c.comparing = compare.Run
	}
	return nil
}

// newSite makes the pages of the rig at path, below base. Without a path only what
// needs no rig answers.
func newSite(h *hall, path, base string, watched *live.Monitor) *site {
	desk := newDesk(path)
	if path != "" {
		rig.Tidy(desk.path)
	}
	c, q := h.config, h.queue
	s := &site{
		hall: h, base: base, desk: desk, views: h.viewsFor(base), live: watched,
		trips: newTrips(c.reckon, q), drills: newDrills(c.drilling, q), choices: newChoices(c.choosing, q), compares: newCompares(c.comparing, q),
		proofs: newProofs(c.prover), ledger: &ledger{server: c.Store}, lives: &kept[*keep.Result]{queue: q},
	}
	s.pages = sync.OnceValue(func() http.Handler { return s.routes(func(string) {}) })
	return s
}

// ends are what stops the runs behind the pages.
func (s *site) ends() []func() {
	return []func(){s.lives.end, s.trips.end, s.drills.end, s.choices.end, s.compares.jobs.end, s.proofs.end, s.ledger.end}
}

// at is the address of one of the rig's own pages.
func (s *site) at(page string) string { return s.base + page }

// routes are the pages of the rig. Each pattern is told to note.
func (s *site) routes(note func(pattern string)) *http.ServeMux {
	mux := router{http.NewServeMux(), note}
	if len(s.config.Figures) > 0 {
		mux.HandleFunc("GET /figures", s.figures)
		mux.HandleFunc("GET /figures/checks", s.checks)
		mux.HandleFunc("GET /figures/{name}", s.figure)
	}
	mux.ServeMux.HandleFunc("/", s.missing)
	mux.HandleFunc("GET /app.webmanifest", s.app)
	if s.desk.path == "" {
		mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { http.Redirect(w, r, "/rigs", http.StatusSeeOther) })
		return mux.ServeMux
	}
	mux.HandleFunc("GET /{$}", s.overview)
	mux.HandleFunc("GET /home/progress", s.homeProgress)
	mux.HandleFunc("GET /findings", s.findings)
	mux.HandleFunc("GET /rig", s.form)
	mux.HandleFunc("GET /rig/part", s.formPart)
	mux.HandleFunc("POST /rig/set", s.set)
	mux.HandleFunc("POST /rig/item", s.item)
	mux.HandleFunc("GET /rig/text", s.text)
	mux.HandleFunc("POST /rig/text", s.saveText)
	mux.HandleFunc("GET /rig/history", s.history)
	mux.HandleFunc("POST /rig/undo", s.undo)
	mux.HandleFunc("POST /rig/redo", s.redo)
	mux.HandleFunc("POST /rig/back", s.putBack)
	mux.HandleFunc("GET /rig/compare", s.compare)
	mux.HandleFunc("GET /rig/compare/progress", s.compareProgress)
	mux.HandleFunc("POST /rig/compare/stop", s.compareStop)
	s.chooseRoutes(mux)
	mux.HandleFunc("GET /prove", s.prove)
	mux.HandleFunc("POST /prove", s.sendLog)
	mux.HandleFunc("GET /prove/progress", s.proveProgress)
	mux.HandleFunc("POST /prove/keep", s.keepLog)
	mux.HandleFunc("POST /prove/layout", s.keepLayout)
	mux.HandleFunc("POST /prove/write", s.writeProof)
	mux.HandleFunc("GET /prove/plan", s.testPlan)
	mux.HandleFunc("GET /fit", s.fit)
	mux.HandleFunc("GET /wire", s.wire)
	mux.HandleFunc("GET /wire/parts.csv", s.partsTable)
	mux.HandleFunc("GET /wire/schedule.csv", s.scheduleTable)
	mux.HandleFunc("GET /drill", s.drill)
	mux.HandleFunc("GET /drill/progress", s.drillProgress)
	mux.HandleFunc("POST /drill", s.steer("/drill", s.drills))
	mux.HandleFunc("GET /travel", s.travel)
	mux.HandleFunc("GET /travel/progress", s.travelProgress)
	mux.HandleFunc("POST /travel", s.steer("/travel", &s.trips.year))
	s.keepRoutes(mux)
	s.liveRoutes(mux)
	mux.HandleFunc("GET /book", s.book)
	mux.HandleFunc("GET /book/read", s.readBook)
	mux.HandleFunc("GET /book/save", s.saveBook)
	return mux.ServeMux
}

func (s *site) keepRoutes(mux router) {
	mux.HandleFunc("GET /keep", s.keep)
	mux.HandleFunc("GET /keep/progress", s.keepProgress)
	mux.HandleFunc("GET /keep-worker.js", s.keepWorker)
	mux.HandleFunc("POST /keep/reading/new", s.enterReading)
	mux.HandleFunc("POST /keep/readings", s.takeReadings)
	mux.HandleFunc("GET /keep/reading", s.oneReading)
	mux.HandleFunc("POST /keep/reading", s.correct)
	mux.HandleFunc("POST /keep/done", s.note)
	mux.HandleFunc("POST /keep/meter", s.enterMeter)
	mux.HandleFunc("POST /keep/import", s.importTable)
	mux.HandleFunc("POST /keep/accept", s.acceptLog)
	mux.HandleFunc("POST /keep/life", s.lifeRun)
	mux.HandleFunc("GET /keep/readings.csv", s.download("text/csv; charset=utf-8", "-readings.csv", s.exportTable))
	mux.HandleFunc("GET /keep/logbook.json", s.download("application/json", "-logbook.json", s.exportJSON))
	mux.HandleFunc("GET /keep/logbook.sqlite", s.download("application/vnd.sqlite3", "-logbook.sqlite", s.backup))
	mux.HandleFunc("GET /keep/calendar.ics", s.download("text/calendar; charset=utf-8", "-visits.ics", s.calendar))
}

func (s *site) chooseRoutes(mux router) {
	mux.HandleFunc("GET /choose", s.choose)
	mux.HandleFunc("POST /choose", s.steer("/choose", &s.choices.both))
	mux.HandleFunc("GET /choose/progress", s.chooseProgress)
	mux.HandleFunc("POST /choose/search", s.chooseSearch)
	mux.HandleFunc("POST /choose/make", s.chooseMake)
	mux.HandleFunc("POST /choose/back", s.chooseBack)
	mux.HandleFunc("POST /choose/window", s.chooseWindow)
	mux.HandleFunc("GET /choose/rig.yaml", s.chooseFile)
}
