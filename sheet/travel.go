package sheet

import (
	"slices"
	"time"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/travel"
)

// Trip is a year on the road as text.
type Trip struct {
	Answer   []string // sentences, the most important first
	Months   []MonthRow
	Stays    []StayRow
	Limits   []LimitRow
	Reached  []Reached
	Basis    Basis
	Assumed  []string
	Findings []Finding
	Figures  []string // names of the figures behind it
	Week     string   // the days drawn in detail, "12 to 18 January", empty for none
	Years    int      // weather years reckoned
	Pick     string   // address of the page that draws other days, empty for none

	res *travel.Result
}

// MonthRow is a row of the table of months.
type MonthRow struct {
	Name, From, Days string // From and Days are how the month is asked for in detail
	Offered, Caught  string
	Full, Frost      string // lost
	Other            string // lost to the charger, its limit, or a guard
	Brought          string // by mains and alternator
	Asked, Unserved  string
	Hours            string // in which something was not served
	Heater, Locked   string
	Lowest, Coldest  string
	Short            bool
}

// StayRow is a row of the table of stays.
type StayRow struct {
	Name, Dates, Place   string
	Sun, Unserved, Frost string
	Lowest               string
}

// LimitRow is a change that was tried.
type LimitRow struct {
	Change, Why                       string
	Hours, Energy, Frost, Low, Heater string
}

// Reached is one thing the year came to.
type Reached struct{ What, Value, Note string }

// Basis is what the weather of a year rests on.
type Basis struct {
	Source, Reckoned string
	Notes            []string
	Sources          []source.Source
}

// WithTravel returns the model with a year on the road, its findings apart from
// those of the fit, and the sources of its weather in the list of sources.
func (m *Model) WithTravel(res *travel.Result) *Model {
	with := *m
	if res == nil {
		return &with
	}
	t := &Trip{res: res, Years: res.Bands.Years, Answer: answer(res, m.Units), Months: monthRows(res, m.Units), Stays: stayRows(res, m.Units),
		Limits: limitRows(res, m.Units), Reached: reached(res, m.Units), Basis: basisOf(res), Assumed: sentencesOf(res.Assumed),
		Findings: m.tripFindings(res.Findings), Figures: res.Figures, Week: weekWords(res.Span)}
	with.Trip = t
	with.Sources = slices.Clone(m.Sources)
	for _, s := range t.Basis.Sources {
		if !slices.ContainsFunc(with.Sources, func(r Reference) bool { return r.Key == s.Key }) {
			with.Sources = append(with.Sources, Reference{Source: s, For: []string{"weather of the year"}})
		}
	}
	slices.SortFunc(with.Sources, byText)
	return &with
}

func (m *Model) tripFindings(list []finding.Finding) []Finding {
	b := &builder{}
	if m.made != nil {
		b.file = m.made.file
	}
	var out []Finding
	for _, f := range list {
		out = append(out, b.finding(f, "travel-"+f.ID, len(out)))
	}
	return out
}

func sentencesOf(list []string) []string {
	var out []string
	for _, s := range list {
		out = append(out, finding.Sentence(s))
	}
	return out
}

// basisOf says what the weather rests on. A source that is not in the list of
// sources is left to its key.
func basisOf(res *travel.Result) Basis {
	w := res.Weather
	b := Basis{Source: finding.Sentence(w.Source), Notes: sentencesOf(w.Notes)}
	b.Reckoned = counted(w.Years, "weather year") + ", a step every " + q.Seconds.Text(w.StepS, q.Metric) + ", seed " + text(w.Seed) + "."
	for _, key := range w.Sources {
		b.Sources = append(b.Sources, sourceOf(key))
	}
	return b
}

func sourceOf(key string) source.Source {
	for _, s := range source.All() {
		if s.Key == key {
			return s
		}
	}
	return source.Source{Key: key, Text: key}
}

// weekWords names the days of a span: "12 to 18 January".
func weekWords(s *travel.Span) string {
	if s == nil || len(s.SoC) == 0 {
		return ""
	}
	first, err := readDay(s.From)
	if err != nil {
		return s.From
	}
	days := int(float64(len(s.SoC))*s.StepS/86400 + 0.5)
	last := first.AddDate(0, 0, max(1, days)-1)
	switch {
	case last.Equal(first):
		return first.Format("2 January")
	case last.Month() == first.Month():
		return first.Format("2") + " to " + last.Format("2 January")
	}
	return first.Format("2 January") + " to " + last.Format("2 January")
}

func readDay(date string) (time.Time, error) {
	if t, err := time.Parse(time.DateOnly, date); err == nil {
		return t, nil
	}
	return time.Parse(time.DateOnly, "2027-"+date) // a year without a leap day, like all here
}

// HardWeek is the week around the hardest day of the year: the one with most not
// served or, without any, the lowest state of charge.
func HardWeek(res *travel.Result) *travel.SpanWish {
	worst := 0
	for i, d := range res.Days {
		w := res.Days[worst]
		if d.Unserved > w.Unserved || d.Unserved == w.Unserved && d.SoCLow < w.SoCLow {
			worst = i
		}
	}
	if len(res.Days) == 0 {
		return &travel.SpanWish{From: "01-01", Days: 7}
	}
	from := min(max(0, worst-3), max(0, len(res.Days)-7))
	return &travel.SpanWish{From: res.Days[from].Date[5:], Days: 7}
}
