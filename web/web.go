package web

import (
	"errors"
	"html/template"
	"net/http"
	"time"

	"ampstead/figure"
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
	Now        func() time.Time // the clock; nil is time.Now

	reckon reckon // nil is travel.Run
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
	trips    *trips
}

// pages is the handler of all pages with the runs behind them.
type pages struct {
	http.Handler
	trips *trips
}

// Close ends every run behind the pages.
func (p *pages) Close() error {
	p.trips.close()
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
	return &pages{guard(s.private(s.routes()), config.Passphrase != ""), s.trips}, nil
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
	views, err := loadViews()
	if err != nil {
		return nil, err
	}
	assets, err := loadAssets()
	if err != nil {
		return nil, err
	}
	return &site{
		config: config, desk: newDesk(config.Path), views: views, assets: assets,
		sessions: newSessions(config.Now), limiter: newLimiter(config.Now),
		trips: newTrips(config.reckon),
	}, nil
}

func (s *site) routes() *http.ServeMux {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.overview)
	mux.HandleFunc("GET /rig", s.form)
	mux.HandleFunc("POST /rig/set", s.set)
	mux.HandleFunc("GET /rig/text", s.text)
	mux.HandleFunc("POST /rig/text", s.saveText)
	mux.HandleFunc("GET /fit", s.fit)
	mux.HandleFunc("GET /wire", s.wire)
	mux.HandleFunc("GET /wire/parts.csv", s.partsTable)
	mux.HandleFunc("GET /wire/schedule.csv", s.scheduleTable)
	mux.HandleFunc("GET /travel", s.travel)
	mux.HandleFunc("GET /travel/progress", s.travelProgress)
	mux.HandleFunc("POST /travel", s.travelRun)
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
