package web

import (
	"encoding/json"
	"fmt"
	"net/http"

	"ampstead/finding"
	"ampstead/home"
	"ampstead/sheet"
)

type homePage struct {
	Frame  frame
	Home   *home.Result
	Today  []actRow
	Before []actRow
	Stops  []foundRow
	Cares  []foundRow
	Notes  []foundRow
	Tally  string
	Unsaid string

	MoreCares int // of what is worth mending, left to the page of all findings

	Sheet *sheet.Model // for the cautions
	homeParts
}

// homeParts are the parts that change while the year and the drills are reckoned.
type homeParts struct {
	Year    *drawnYear
	Words   string // of the year
	Stages  []stageRow
	Running *running
	Token   string // tells one state of them from another
}

// mostCares is how much of what is worth mending stands on the first page.
const mostCares = 8

// unsaidWords say what a stage that was not asked has left open.
var unsaidWords = map[string]string{
	"prove":  "no test of the module was read",
	"wire":   "the wiring was not reckoned",
	"drill":  "no fault was played through",
	"travel": "the year on the road was not reckoned",
	"keep":   "the logbook holds no reading",
}

// overview is the first page of a rig. It begins the year and the drills where they
// are not known; it waits for neither.
func (s *site) overview(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	s.beginUnasked(now)
	runs, known := s.reckoning(now), s.known(r.Context(), now)
	res, to := home.Of(known), now.places()
	model := s.homeModel(now, known)
	rows := foundRows(model, res, to)
	p := homePage{
		Frame: s.frame(r, "overview", "Home", now), Home: res, Sheet: model,
		Today: to.acts(res.Today), Before: to.acts(res.Before),
		Stops: severity(rows, finding.Stop), Cares: severity(rows, finding.Care), Notes: severity(rows, finding.Note),
		Tally: tallyText(res), Unsaid: unsaidText(res), homeParts: s.homeParts(now, runs, known, res, to),
	}
	if n := len(p.Cares) - mostCares; n > 0 {
		p.Cares, p.MoreCares = p.Cares[:mostCares], n
	}
	if p.Running != nil {
		p.Frame.Scripts = []string{"home.js"}
	}
	s.render(w, http.StatusOK, "home", p)
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

func tallyText(res *home.Result) string {
	return tally{Stop: res.Count(finding.Stop), Care: res.Count(finding.Care), Note: res.Count(finding.Note)}.Text()
}

// beginUnasked begins what the first page would like to show, behind whatever a
// visitor waits for.
func (s *site) beginUnasked(now *reading) {
	if s.config.still {
		return
	}
	s.trips.unasked(now)
	s.drills.drilledUnasked(now)
	if t, ok := s.newestTask(now); ok {
		s.proofs.unasked(t)
	}
}

// homeModel is the model of all that was found, for the words and places of the
// findings.
func (s *site) homeModel(now *reading, k home.Known) *sheet.Model {
	played := resultOf(s.drills.known(now))
	m := played.with(now.whole().WithTravel(k.Travel)).WithProof(k.Log, k.Proof).WithChoice(k.Choice)
	if k.Kept != nil && k.Kept.Readings > 0 {
		m = m.WithLog(k.Kept, nil)
	}
	return m
}

// homeParts are made anew each time the page asks.
func (s *site) homeParts(now *reading, runs *running, k home.Known, res *home.Result, to places) homeParts {
	p := homeParts{Year: s.glances.draw(k.Travel, now.units), Stages: stageRows(res, to, k.Now), Running: runs}
	if year := res.Stage("travel"); year.Standing != home.Running {
		p.Words = sentences(year.State)
	}
	p.Token = stampOf(fmt.Append(nil, now.stamp, tallyText(res), k.Travel != nil, k.Drill != nil, k.Proof != nil))[:8]
	return p
}

// reckoning says how far what was begun unasked is; nil when all of it is over.
func (s *site) reckoning(now *reading) *running {
	if j := s.trips.known(now); j != nil && !j.over() {
		return j.running(yearsReckoned).after("The year on the road is being reckoned.")
	}
	if j := s.drills.known(now); j != nil && !j.over() {
		return j.running(faultsPlayed).after("Faults are being played through.")
	}
	if t, ok := s.newestTask(now); ok {
		if j := s.proofs.known(t); j != nil && !j.over() {
			return j.running(logRead).after("The log " + t.name + " is being read.")
		}
	}
	return nil
}

// after puts words before how far it is.
func (r running) after(words string) *running {
	r.Say = words + " " + r.Say
	return &r
}

// homeNews is what the page is told while something is reckoned.
type homeNews struct {
	running
	Token  string `json:"token"`
	Tally  string `json:"tally"`
	Year   string `json:"year,omitempty"` // only where something changed
	Stages string `json:"stages,omitempty"`
}

// homeProgress answers the first page's question how far it is, with the parts that
// changed since.
func (s *site) homeProgress(w http.ResponseWriter, r *http.Request) {
	news := homeNews{running: running{Over: true}}
	if now := s.look(r); now.result != nil {
		runs := s.reckoning(now) // before what is known: a run that ends between is asked about once more
		known := s.known(r.Context(), now)
		res := home.Of(known)
		p := s.homeParts(now, runs, known, res, now.places())
		if p.Running != nil {
			news.running = *p.Running
			news.Over = false // one that ended while this is made is not in these parts yet
		}
		news.Token, news.Tally = p.Token, tallyText(res)
		if p.Token != r.URL.Query().Get("had") || p.Running == nil {
			var err error
			if news.Year, err = s.partOf("home", "home-year", p); err == nil {
				news.Stages, err = s.partOf("home", "home-stages", p)
			}
			if err != nil {
				http.Error(w, "This part could not be made: "+err.Error(), http.StatusInternalServerError)
				return
			}
		}
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_ = json.NewEncoder(w).Encode(news) // a visitor who left is no failure of ours
}
