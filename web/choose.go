package web

import (
	"errors"
	"net/http"
	"net/url"

	"ampstead/choose"
	"ampstead/fit"
	"ampstead/sheet"
)

type choosePage struct {
	waiting
	Frame   frame
	Sheet   *sheet.Model // with the comparison, once it is there
	Stamp   string
	File    string // name of the rig file
	Search  searchForm
	Tried   *running // a search that runs
	Over    string   // what to say of a search that ended without a result
	Kept    bool     // the search was stopped and can go on
	Axes    []axisChoice
	Changes []sheet.Changed // what the picked design would change in the file
	Refused string          // why it cannot be made
	Done    string          // what the request before did
	Back    bool            // what it did can be taken back
	Wrong   string          // why it came to nothing
}

// axisChoice is something the front can be drawn over.
type axisChoice struct{ Key, Text string }

var axisTexts = map[string]string{"price": "price", "short": "hours short a year", "mass": "mass", "years": "years of life"}

// batteriesCompared is what the progress of this page counts.
const (
	batteriesCompared = "batteries compared"
	rigsTried         = "batteries and rigs tried"
)

// choose shows the batteries side by side, or how far that is.
func (s *site) choose(w http.ResponseWriter, r *http.Request) {
	s.showChoose(w, r, http.StatusOK, searchForm{}, "")
}

func (s *site) showChoose(w http.ResponseWriter, r *http.Request, status int, typed searchForm, wrong string) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	p := choosePage{Frame: s.frame(r, "choose", "Choose", now), Stamp: now.stamp, File: fileName(now), Wrong: wrong, Search: typed}
	p.Frame.Back = s.at("/choose")
	p.said(s, now, r.URL.Query())
	j := s.choices.compared(now)
	j.wait(r.Context(), patience)
	if p.ready(&j.task, &p.Frame, batteriesCompared) {
		p.fill(s, now, r, j.result)
	}
	s.render(w, status, "choose", p)
}

// said is what the request before this one did.
func (p *choosePage) said(s *site, now *reading, query url.Values) {
	switch query.Get("did") {
	case "made":
		p.Done, p.Back = "The design is now the rig file, with every setting as fit recommends for it.", s.choices.canGoBack(now)
	case "window":
		p.Done, p.Back = "The window is written into the rig file. Fit shows the settings for it.", s.choices.canGoBack(now)
	case "back":
		p.Done = "The rig file is again what it was."
	}
}

// fill shows the comparison, with a search where there is one.
func (p *choosePage) fill(s *site, now *reading, r *http.Request, res *choose.Result) {
	form, found := p.searched(s, now, r)
	if p.Search == (searchForm{}) {
		p.Search = form
	}
	if found != nil {
		res = found
	}
	query := r.URL.Query()
	axes := sheet.DesignAxes{Across: query.Get("across"), Up: query.Get("up")}
	p.Sheet = now.sheet().WithChoice(res).PickedDesign(s.at("/choose"), query.Get("design"), axes)
	for _, key := range sheet.AxesOf(res) {
		p.Axes = append(p.Axes, axisChoice{key, axisTexts[key]})
	}
	if d := p.Sheet.Compared.Picked; d != nil {
		p.preview(s, now, designNamed(res, d.Name))
	}
}

// searched is what the search came to; nil while there is no result.
func (p *choosePage) searched(s *site, now *reading, r *http.Request) (searchForm, *choose.Result) {
	j, form := s.choices.searching(now)
	if j == nil {
		return form, nil
	}
	j.wait(r.Context(), patience)
	switch {
	case !j.over():
		p.Tried = p.Frame.follow(&j.task, rigsTried)
	case j.stopped():
		p.Over, p.Kept = "The search was stopped. What was tried is kept: it can go on from there.", true
	case j.err != nil:
		p.Over = "The search came to nothing: " + reasonOf(j.err) + "."
	default:
		return form, j.result
	}
	return form, nil
}

func reasonOf(err error) string {
	var in *fit.InputError
	if errors.As(err, &in) {
		return in.Message + "; expected " + in.Expected
	}
	return err.Error()
}

// preview works out what a design would change in the file.
func (p *choosePage) preview(s *site, now *reading, d *choose.Design) {
	next, err := s.choices.apply(now.file, d)
	if err != nil {
		p.Refused = plainReason(err)
		return
	}
	p.Changes = sheet.Differences(now.file, next)
}

func designNamed(res *choose.Result, name string) *choose.Design {
	for i := range res.Front {
		if res.Front[i].Name == name {
			return &res.Front[i]
		}
	}
	return nil
}

// chooseProgress answers the page's question how far it is.
func (s *site) chooseProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	if now := s.look(r); now.result != nil {
		if j := s.choices.compared(now); !j.over() {
			answer = j.running(batteriesCompared)
		} else if search, _ := s.choices.searching(now); search != nil {
			answer = search.running(rigsTried)
		}
	}
	answer.send(w)
}
