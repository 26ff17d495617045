package web

import (
	"html/template"
	"net/http"
	"net/url"

	"ampstead/quantity"
)

// hall is what all rigs of one server share: who may come in, the queue that their
// runs wait in, and the pages that belong to no rig.
type hall struct {
	config   Config
	shared   *template.Template // the parts of every page
	assets   map[string]asset
	sessions *sessions
	limiter  *limiter
	queue    *queue
	streams  chan struct{} // one for each page that follows live values
	workshop *workshop     // nil where one rig is served alone
	front    *site         // what answers at "/"; without a rig of its own in a bare workshop
	paths    []string      // every pattern that is answered, for the tests that walk them
}

func newHall(config Config) (*hall, error) {
	shared, err := parseShared()
	if err != nil {
		return nil, err
	}
	assets, err := loadAssets()
	if err != nil {
		return nil, err
	}
	h := &hall{
		config: config, shared: shared, assets: assets,
		sessions: newSessions(config.Now), limiter: newLimiter(config.Now),
		queue: newQueue(), streams: make(chan struct{}, mostStreams),
	}
	h.queue.now = config.Now
	h.front = newSite(h, config.Path, "", config.Live)
	if config.Workshop != "" {
		h.workshop = newWorkshop(h, config.Workshop, config.Path)
	}
	return h, nil
}

// router keeps the patterns that are registered with it.
type router struct {
	*http.ServeMux
	note func(pattern string)
}

func (m router) HandleFunc(pattern string, handler http.HandlerFunc) {
	m.note(pattern)
	m.ServeMux.HandleFunc(pattern, handler)
}

// routes are the pages of the hall; what is none of them is the front rig's.
func (h *hall) routes() http.Handler {
	note := func(pattern string) { h.paths = append(h.paths, pattern) }
	mux := router{http.NewServeMux(), note}
	mux.HandleFunc("POST /show", h.show)
	mux.HandleFunc("GET /static/{name}", h.static)
	mux.HandleFunc("GET /phone", h.phone)
	mux.HandleFunc("GET /start", h.start)
	mux.HandleFunc("POST /start", h.finish)
	if h.config.Passphrase != "" {
		mux.HandleFunc("GET /login", h.login)
		mux.HandleFunc("POST /login", h.enter)
		mux.HandleFunc("POST /logout", h.leave)
	}
	mux.HandleFunc("GET /rigs", h.rigs)
	if h.workshop != nil {
		mux.HandleFunc("/rigs/{slug}", h.enterRig)
		mux.HandleFunc("/rigs/{slug}/{rest...}", h.enterRig)
	}
	mux.ServeMux.Handle("/", h.front.routes(note))
	return mux
}

// enterRig hands a request below /rigs/SLUG/ to the pages of that rig.
func (h *hall) enterRig(w http.ResponseWriter, r *http.Request) {
	slug := r.PathValue("slug")
	if h.workshop.isFront(slug) {
		to := url.URL{Path: "/" + r.PathValue("rest"), RawQuery: r.URL.RawQuery}
		http.Redirect(w, r, to.String(), http.StatusTemporaryRedirect)
		return
	}
	s, ok := h.workshop.site(slug)
	if !ok {
		h.front.missing(w, r)
		return
	}
	if r.URL.Path == "/rigs/"+slug {
		http.Redirect(w, r, rigAddress(slug)+"/", http.StatusTemporaryRedirect)
		return
	}
	below := r.Clone(r.Context())
	below.URL.Path, below.URL.RawPath = "/"+r.PathValue("rest"), ""
	s.pages().ServeHTTP(w, below)
}

// end stops whatever runs behind the pages of all rigs.
func (h *hall) end() {
	ends := h.front.ends()
	if h.workshop != nil {
		ends = append(ends, h.workshop.ends()...)
	}
	h.queue.close(ends...)
}

// frame is that of a page that belongs to no rig.
func (h *hall) frame(r *http.Request, here, title string) frame {
	return frame{
		Title: title, Here: here, Nav: h.nav(), Light: light(r),
		US: h.units(r, nil) == quantity.US, Back: r.URL.Path,
		Private: h.config.Passphrase != "", Version: h.config.Version, Workshop: h.workshop != nil,
	}
}

func (h *hall) nav() []link {
	var nav []link
	if h.workshop != nil {
		nav = append(nav, link{"rigs", "/rigs", "Rigs"})
	}
	if len(h.config.Figures) > 0 {
		nav = append(nav, link{"figures", "/figures", "Handbook"})
	}
	return nav
}

// render makes a page that belongs to no rig.
func (h *hall) render(w http.ResponseWriter, status int, view string, data any) {
	h.front.render(w, status, view, data)
}

// figureTo leads to a figure of the handbook, where there is one.
func (h *hall) figureTo(base string) func(string) string {
	return func(name string) string {
		if len(h.config.Figures) == 0 {
			return ""
		}
		return base + "/figures/" + name
	}
}

// viewsFor are the pages with links below base.
func (h *hall) viewsFor(base string) *views {
	return newViews(h.shared, template.FuncMap{"at": func() string { return base }, "figureTo": h.figureTo(base)})
}
