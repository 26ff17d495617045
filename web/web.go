package web

import (
	"errors"
	"html/template"
	"net/http"
	"time"

	"ampstead/choose"
	"ampstead/drill"
	"ampstead/figure"
	"ampstead/keep"
	"ampstead/live"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/travel"
)

// Config says which rig is served and to whom.
type Config struct {
	Path       string           // rig folder or file
	Units      quantity.System  // shown where neither the visitor nor the rig file says
	Passphrase string           // empty: this machine only, and no passphrase is asked
	Version    string           // of the program, shown at the foot
	Figures    []*figure.Figure // the handbook; empty leaves it out
	Live       *live.Monitor    // what reads live values beside the page; nil for none. It ends before the page does.
	Now        func() time.Time // the clock; nil is time.Now
	Store      string           // logbook on a database server, postgres://...; empty for the one in the rig's folder

	reckon  reckon // nil is travel.Run
	prover  prover // nil is prove.Run
	mostLog int64  // largest log that may be sent, bytes; 0 is 512 MB

	drilling drilling // without functions, those of drill
	choosing choosing // without functions, those of choose
}

const shortestPassphrase = 8

// site is the running page server.
type site struct {
	config   Config
	desk     *desk
	views    map[string]*template.Template
	assets   map[string]asset
	sessions *sessions
	limiter  *limiter
	queue    *queue // that trips and drills wait in
	trips    *trips
	drills   *drills
	choices  *choices
	proofs   *proofs
	ledger   *ledger
	streams  chan struct{}       // one for each page that follows live values
	lives    *kept[*keep.Result] // the years ahead
}

// pages is the handler of all pages with the runs behind them.
type pages struct {
	http.Handler
	site *site
}

// Close ends every run behind the pages.
func (p *pages) Close() error {
	p.site.queue.close(p.site.lives.end, p.site.trips.end, p.site.drills.end, p.site.choices.end)
	p.site.proofs.end()
	p.site.ledger.end()
	return nil
}

// New makes the handler of all pages. The rig may be missing or damaged: the
// pages then say so. The handler is an io.Closer: closing it ends what it reckons
// in the background. Errors: a passphrase under eight characters.
func New(config Config) (http.Handler, error) {
	s, err := newSite(config)
	if err != nil {
		return nil, err
	}
	return &pages{guard(s.private(s.routes()), config.Passphrase != ""), s}, nil
}

func newSite(config Config) (*site, error) {
	if p := config.Passphrase; p != "" && len([]rune(p)) < shortestPassphrase {
		return nil, errors.New("the passphrase needs at least 8 characters")
	}
	if config.Now == nil {
		config.Now = time.Now
	}
	if config.reckon == nil {
		config.reckon = travel.Run
	}
	if config.prover == nil {
		config.prover = prove.Run
	}
	if config.mostLog == 0 {
		config.mostLog = mostLog
	}
	if config.drilling.run == nil {
		config.drilling = drilling{drill.Run, drill.Play}
	}
	if config.choosing.run == nil {
		config.choosing = choosing{choose.Run, choose.Apply}
	}
	views, err := loadViews()
	if err != nil {
		return nil, err
	}
	assets, err := loadAssets()
	if err != nil {
		return nil, err
	}
	q := newQueue()
	return &site{
		config: config, desk: newDesk(config.Path), views: views, assets: assets,
		sessions: newSessions(config.Now), limiter: newLimiter(config.Now),
		queue: q, trips: newTrips(config.reckon, q), drills: newDrills(config.drilling, q), choices: newChoices(config.choosing, q), proofs: newProofs(config.prover),
		ledger: &ledger{server: config.Store}, streams: make(chan struct{}, mostStreams), lives: &kept[*keep.Result]{queue: q},
	}, nil
}

func (s *site) routes() *http.ServeMux {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.overview)
	mux.HandleFunc("GET /rig", s.form)
	mux.HandleFunc("POST /rig/set", s.set)
	mux.HandleFunc("GET /rig/text", s.text)
	mux.HandleFunc("POST /rig/text", s.saveText)
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
	if len(s.config.Figures) > 0 {
		mux.HandleFunc("GET /figures", s.figures)
		mux.HandleFunc("GET /figures/{name}", s.figure)
	}
	mux.HandleFunc("POST /show", s.show)
	mux.HandleFunc("GET /static/{name}", s.static)
	if s.config.Passphrase != "" {
		mux.HandleFunc("GET /login", s.login)
		mux.HandleFunc("POST /login", s.enter)
		mux.HandleFunc("POST /logout", s.leave)
	}
	mux.HandleFunc("/", s.missing)
	return mux
}

func (s *site) keepRoutes(mux *http.ServeMux) {
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

func (s *site) chooseRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /choose", s.choose)
	mux.HandleFunc("POST /choose", s.steer("/choose", &s.choices.both))
	mux.HandleFunc("GET /choose/progress", s.chooseProgress)
	mux.HandleFunc("POST /choose/search", s.chooseSearch)
	mux.HandleFunc("POST /choose/make", s.chooseMake)
	mux.HandleFunc("POST /choose/back", s.chooseBack)
	mux.HandleFunc("POST /choose/window", s.chooseWindow)
	mux.HandleFunc("GET /choose/rig.yaml", s.chooseFile)
}
