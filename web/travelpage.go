package web

import (
	"fmt"
	"net/http"
	"strconv"
	"time"

	"ampstead/sheet"
	"ampstead/travel"
)

type travelPage struct {
	waiting
	Frame frame
	Sheet *sheet.Model // with the year, once it is reckoned
	From  string       // the days asked for, as the form shows them
	Days  int
	Wrong string // what is wrong with the days asked for
}

// travel shows the year on the road, or how far reckoning it has come.
func (s *site) travel(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	p := travelPage{Frame: s.frame(r, "travel", "Travel", now)}
	year := s.trips.of(now)
	year.wait(r.Context(), patience)
	if !p.ready(&year.task, &p.Frame, yearsReckoned) {
		s.render(w, http.StatusOK, "travel", p)
		return
	}
	res := *year.result
	if err := p.chosen(r); err != nil {
		p.Wrong = err.Error()
	} else if p.From != "" {
		days := s.trips.span(now, travel.SpanWish{From: p.From, Days: p.Days})
		days.wait(r.Context(), patience)
		if !p.ready(&days.task, &p.Frame, yearsReckoned) {
			s.render(w, http.StatusOK, "travel", p)
			return
		}
		res.Span = days.result.Span
	}
	p.Sheet = now.sheet().WithTravel(&res)
	p.Sheet.Trip.Pick = s.at("/travel")
	p.fill(&res)
	s.render(w, http.StatusOK, "travel", p)
}

// yearsReckoned is what the progress of this page counts.
const yearsReckoned = "years reckoned"

// mostDays is the longest stretch shown in detail.
const mostDays = 31

// chosen reads which days to show in detail; none when nothing is asked for.
func (p *travelPage) chosen(r *http.Request) error {
	from := r.URL.Query().Get("from")
	if from == "" {
		return nil
	}
	when, err := time.Parse(time.DateOnly, from)
	if err != nil {
		if when, err = time.Parse(time.DateOnly, "2027-"+from); err != nil {
			return fmt.Errorf("%.20q is not a day: write it as month and day, such as 01-15", from)
		}
	}
	days := 7
	if text := r.URL.Query().Get("days"); text != "" {
		if days, err = strconv.Atoi(text); err != nil || days < 1 || days > mostDays {
			return fmt.Errorf("show 1 to %d days, not %.20q", mostDays, text)
		}
	}
	p.From, p.Days = when.Format("01-02"), days
	if p.From == "02-29" {
		p.From = "02-28" // a year here has 365 days
	}
	return nil
}

// fill puts the days that are shown into the form.
func (p *travelPage) fill(res *travel.Result) {
	if p.From != "" || res.Span == nil {
		return
	}
	wish := sheet.HardWeek(res)
	p.From, p.Days = wish.From, wish.Days
}

// travelProgress answers the page's question how far the run is.
func (s *site) travelProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	if now := s.look(r); now.result != nil {
		p := travelPage{}
		j := s.trips.of(now)
		if err := p.chosen(r); err == nil && p.From != "" && j.over() && j.err == nil {
			j = s.trips.span(now, travel.SpanWish{From: p.From, Days: p.Days})
		}
		answer = j.running(yearsReckoned)
	}
	answer.send(w)
}
