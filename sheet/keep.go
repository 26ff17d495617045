package sheet

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/keep"
	"ampstead/picture"
	"ampstead/store"
)

// Log is what the logbook tells, as text.
type Log struct {
	Empty     bool     // no reading is in it
	Answer    []string // sentences, the most important first
	Today     []TodayRow
	Next      string // "10 January 2027"
	NextWhy   string
	Facts     []Reached
	Groups    []LogGroup
	Balance   []string
	Not       []string // why not to balance now
	Visible   []Reached
	Capacity  []string
	Life      []string
	LifeNotes []string
	Aside     []Reached // readings that weigh less or nothing, with the reason
	Back      []BackRow
	Findings  []Finding
	Readings  []ReadingRow // the latest first
	More      int          // readings that are not listed
	Blank     []string     // names of the groups, for a sheet to fill by hand

	res *keep.Result
}

// TodayRow is one thing to do.
type TodayRow struct {
	Urgency, Do, Why, By string
	Tag                  string // class of the urgency
}

// LogGroup is a row of the table of groups.
type LogGroup struct {
	Name, Offset, Drift, Bleed string
	Notes                      []string
	Drifts                     bool
}

// BackRow is a value that the log would change in the rig file.
type BackRow struct{ Path, Now, Value, Why string }

// ReadingRow is a reading of the logbook.
type ReadingRow struct {
	ID, When           string
	Version            int
	Groups             []string // V
	Low, High, Apart   string
	Bank, Current      string
	Temps, Rested      string
	Meter, Note, Count string
}

// WithLog returns the model with what the logbook tells. readings are those of the
// log, by time; res is what keep makes of them, nil when that was not reckoned.
func (m *Model) WithLog(res *keep.Result, readings []store.Reading) *Model {
	with := *m
	if res == nil {
		res = &keep.Result{}
	}
	w := &logWords{res: res, sys: m.Units}
	with.Log = &Log{res: res, Empty: len(readings) == 0, Answer: w.answer(len(readings)), Today: w.today(), Next: Day(res.Next.Date), NextWhy: finding.Sentence(res.Next.Why),
		Facts: w.facts(), Groups: w.groups(), Balance: w.balance(), Not: sentencesOf(res.Balance.Not), Visible: w.visible(), Capacity: w.capacity(), Life: w.life(), LifeNotes: w.lifeNotes(),
		Aside: w.aside(), Back: backRows(res.Back), Findings: m.stageFindings("keep", res.Findings), Blank: m.groupNames()}
	if with.Log.Empty {
		with.Log.Groups, with.Log.Facts, with.Log.Visible, with.Log.Balance, with.Log.Not = nil, nil, nil, nil, nil
	}
	with.Log.Readings, with.Log.More = readingRows(readings, m.Units)
	with.addFigures(explain(res.Uses, m.Units))
	return &with
}

// groupNames are those of the bank, for a sheet to fill.
func (m *Model) groupNames() []string {
	if m.made == nil {
		return nil
	}
	var list []string
	for i := range m.made.rig.Bank.Series {
		list = append(list, text3(float64(i+1)))
	}
	return list
}

// Tally counts the findings of the log in words.
func (l *Log) Tally() string { return tally(l.Findings) }

// FigureNames lists the figures behind it.
func (l *Log) FigureNames() []string { return figure.Names(l.res.Uses) }

// DriftPicture is every group against time.
func (m *Model) DriftPicture() Drawings { return m.logDrawings("log", picture.Drift) }

// BleedPicture is what levels the groups.
func (m *Model) BleedPicture() Drawings { return m.logDrawings("log", picture.Bleed) }

// CapacityPicture is the capacity against time.
func (m *Model) CapacityPicture() Drawings { return m.logDrawings("log", picture.CapacityTrend) }

// AheadPicture is the years that are left.
func (m *Model) AheadPicture() Drawings {
	if m.Log == nil || m.Log.res.Life == nil {
		return Drawings{}
	}
	return m.logDrawings("years", picture.YearsAhead)
}

func (m *Model) logDrawings(reckoned string, of func(*keep.Result, picture.Options) string) Drawings {
	if m.Log == nil {
		return Drawings{}
	}
	return m.drawn(reckoned, "", picture.Options{}, func(o picture.Options) string { return of(m.Log.res, o) })
}
