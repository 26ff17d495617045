package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"time"

	"ampstead/live"
	"ampstead/picture"
	q "ampstead/quantity"
)

// A stream of live values ends after streamTime, so that a visitor who is no
// longer let in is asked again; each event must be taken within eventTime.
const (
	streamTime  = 10 * time.Minute
	eventTime   = 20 * time.Second
	mostStreams = 32
	chartPoints = 700
)

// liveSpans are the spans a chart may cover.
var liveSpans = []struct {
	Name string
	Span time.Duration
}{{"day", 24 * time.Hour}, {"week", 7 * 24 * time.Hour}, {"year", 366 * 24 * time.Hour}}

type livePage struct {
	Frame   frame
	Now     *liveNow // nil while nothing is read in this process
	Warning string
	Series  []liveChoice
	Spans   []liveChoice
	Desk    template.HTML
	Phone   template.HTML
	Trouble string
}

type liveChoice struct {
	Key, Name string
	Chosen    bool
}

// liveNow is what is read at the moment, ready to show.
type liveNow struct {
	Connected bool
	Broker    string
	Link      string
	At        string
	Alarms    []liveAlarm
	Values    []liveValue
	Recent    []liveAlarm
	Counts    string
	Warning   string
}

type liveAlarm struct{ When, What, State string }

type liveValue struct {
	Series, Title, Text, When string
	Stale                     bool
}

func (s *site) liveRoutes(mux router) {
	mux.HandleFunc("GET /keep/live", s.livePage)
	mux.HandleFunc("GET /keep/live/now", s.livePoll)
	mux.HandleFunc("GET /keep/live/events", s.liveEvents)
}

// liveNow is the state of the monitor in the visitor's units; nil without one.
func (s *site) liveNow(units q.System) *liveNow {
	if s.live == nil {
		return nil
	}
	state, _ := s.live.State()
	return showLive(state, units, s.config.Now().Location())
}

func showLive(state live.State, units q.System, zone *time.Location) *liveNow {
	clock := func(t time.Time) string { return t.In(zone).Format("2 Jan 15:04:05") }
	n := &liveNow{Connected: state.Connected, Broker: state.Broker, Link: "not connected", At: clock(state.At), Warning: state.Warning,
		Counts: fmt.Sprintf("%d messages, %d values stored, %d not understood, %d left out", state.Messages, state.Stored, state.Wrong, state.Lost)}
	switch {
	case state.Ended:
		n.Link = "ended"
	case state.Connected:
		n.Link = "connected"
	case state.Trouble != "":
		n.Link = "not connected: " + state.Trouble
	}
	for _, a := range state.Alarms {
		n.Alarms = append(n.Alarms, liveAlarm{clock(a.At), a.What, "since"})
	}
	for _, a := range state.Recent[:min(len(state.Recent), 12)] {
		how := "cleared"
		if a.Raised {
			how = "raised"
		}
		n.Recent = append(n.Recent, liveAlarm{clock(a.At), a.What, how})
	}
	for _, v := range state.Values {
		n.Values = append(n.Values, liveValue{v.Series, v.Title, liveText(v, units), clock(v.At), v.Stale})
	}
	return n
}

func liveText(v live.Value, units q.System) string {
	switch v.Dim {
	case q.Volts:
		if v.Series == live.BankVoltage {
			return q.Volts.Fixed(v.Value, "V", 2)
		}
		return q.Volts.Fixed(v.Value, "V", 3)
	case q.Celsius:
		return q.Celsius.Fixed(v.Value, q.Celsius.Show(0, units), 1)
	case q.Fraction:
		return q.Fraction.Fixed(v.Value, "%", 0)
	}
	return v.Dim.Fixed(v.Value, v.Dim.Base, 1)
}

// livePage shows the live values and the chart of one series.
func (s *site) livePage(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	p := livePage{Frame: s.frame(r, "keep", "Live readings", now), Warning: live.Warning, Now: s.liveNow(s.units(r, now))}
	p.Frame.Back = s.at("/keep/live")
	if p.Now != nil {
		p.Frame.Scripts = []string{"watch.js"}
	}
	if err := s.drawTrail(r, now, &p); err != nil {
		p.Trouble = plainReason(err)
	}
	s.render(w, http.StatusOK, "live", p)
}

// drawTrail reads the chosen series over the chosen span from the logbook.
func (s *site) drawTrail(r *http.Request, now *reading, p *livePage) error {
	book, err := s.ledger.open(r.Context(), now.file, false)
	if err != nil || book == nil {
		return err
	}
	names, err := book.Series(r.Context())
	if err != nil {
		return err
	}
	names = slices.DeleteFunc(names, func(n string) bool { _, _, ok := live.Describe(n); return !ok })
	if len(names) == 0 {
		return nil
	}
	series, span := p.choose(r, names)
	to := s.config.Now()
	buckets, _, err := book.Chart(r.Context(), series, to.Add(-span), to, chartPoints)
	if err != nil {
		return err
	}
	t := picture.Trail{From: to.Add(-span), To: to}
	t.Title, t.Dim, _ = live.Describe(series)
	for _, l := range live.Lines(now.file.Rig, now.result, series) {
		t.Limits = append(t.Limits, picture.TrailLimit{V: l.V, Name: l.Name})
	}
	for _, b := range buckets {
		t.Points = append(t.Points, picture.TrailPoint{From: b.From, Width: b.Width, Min: b.Min, Mean: b.Mean, Max: b.Max})
	}
	o := picture.Options{Units: s.units(r, now)}
	p.Desk = template.HTML(picture.Live(t, o)) // our own drawing, escaped by the package
	o.Width = picture.Phone
	p.Phone = template.HTML(picture.Live(t, o))
	return nil
}

// choose reads which series and span are wanted; without a word, the bank's day.
func (p *livePage) choose(r *http.Request, names []string) (series string, span time.Duration) {
	slices.SortFunc(names, live.Compare)
	series, span = names[0], liveSpans[0].Span
	if want := r.URL.Query().Get("series"); slices.Contains(names, want) {
		series = want
	}
	for _, n := range names {
		title, _, _ := live.Describe(n)
		p.Series = append(p.Series, liveChoice{n, title, n == series})
	}
	chosen := 0
	for i, c := range liveSpans {
		if c.Name == r.URL.Query().Get("span") {
			chosen, span = i, c.Span
		}
	}
	for i, c := range liveSpans {
		p.Spans = append(p.Spans, liveChoice{c.Name, c.Name, i == chosen})
	}
	return series, span
}

// liveEvent is what the page's module gets.
type liveEvent struct {
	HTML string `json:"html"`
	Say  string `json:"say"` // the alarms, for a listener
	Over bool   `json:"over"`
}

func (s *site) liveEvent(state live.State, units q.System) ([]byte, error) {
	n := showLive(state, units, s.config.Now().Location())
	var page bytes.Buffer
	if err := s.views.execute(&page, "live", "live-now", n); err != nil {
		return nil, err
	}
	e := liveEvent{HTML: page.String(), Over: state.Ended, Say: "No alarm."}
	if len(n.Alarms) > 0 {
		e.Say = "Alarm:"
		for _, a := range n.Alarms {
			e.Say += " " + a.What + "."
		}
	}
	return json.Marshal(e)
}

// livePoll answers once, for browsers that cannot keep a stream.
func (s *site) livePoll(w http.ResponseWriter, r *http.Request) {
	if s.live == nil {
		s.missing(w, r)
		return
	}
	state, _ := s.live.State()
	text, err := s.liveEvent(state, s.units(r, s.desk.read()))
	if err != nil {
		http.Error(w, "The values could not be shown.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_, _ = w.Write(text) // a visitor who left is no failure of ours
}
