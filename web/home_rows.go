package web

import (
	"html/template"
	"strings"
	"sync"
	"time"

	"ampstead/finding"
	"ampstead/home"
	"ampstead/picture"
	"ampstead/quantity"
	"ampstead/sheet"
	"ampstead/travel"
)

// actRow is a thing to do with the way to it.
type actRow struct {
	home.Act
	To string
}

// foundRow is a finding with the way to where it is mended and to who found it.
type foundRow struct {
	sheet.Finding
	Head string
	To   string
	By   []link
}

// stageRow is a stage as a chapter of the rig's book.
type stageRow struct {
	home.Stage
	Number int
	Title  string
	To     string
	Tag    string // how it is marked: that of a severity, or empty
	When   string
	NextTo string
}

func (to places) act(a home.Act) string {
	switch {
	case a.Path != "":
		return to.link(a.Path)
	case a.Stage == "rig" && a.Part == "text":
		return "/rig/text"
	case a.Stage == "home":
		return "/#" + a.Part
	case a.Part != "":
		return "/" + a.Stage + "#" + a.Part
	}
	return "/" + a.Stage
}

func (to places) acts(list []home.Act) []actRow {
	var rows []actRow
	for _, a := range list {
		rows = append(rows, actRow{a, to.act(a)})
	}
	return rows
}

func titleOf(stage string) string {
	for _, s := range stages {
		if s.key == stage {
			return s.title
		}
	}
	return stage
}

// tagOf marks a standing as the severities are marked.
func tagOf(s home.Standing) string {
	switch s {
	case home.Stop:
		return "stop"
	case home.Mend, home.Due:
		return "care"
	case home.Done:
		return ""
	}
	return "note"
}

func stageRows(res *home.Result, to places, now time.Time) []stageRow {
	var rows []stageRow
	for i, s := range res.Stages {
		row := stageRow{Stage: s, Number: i + 1, Title: titleOf(s.Name), To: "/" + s.Name, Tag: tagOf(s.Standing), NextTo: to.act(s.Next)}
		row.State = sentences(s.State)
		if !s.At.IsZero() {
			row.When = "Reckoned " + clockWords(s.At.In(now.Location()), now) + "."
		}
		rows = append(rows, row)
	}
	return rows
}

// clockWords says when something was, the day only where it is not today.
func clockWords(at, now time.Time) string {
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return "today at " + at.Format("15:04")
	}
	return "on " + at.Format("2 January at 15:04")
}

// foundRows joins what home says of each finding with what the sheets do.
func foundRows(m *sheet.Model, res *home.Result, to places) []foundRow {
	type place struct{ id, where string }
	said := map[place]sheet.Finding{}
	for _, f := range m.Everything() {
		if at := (place{f.ID, f.Where}); said[at].Anchor == "" {
			said[at] = f
		}
	}
	var rows []foundRow
	for _, f := range res.Findings {
		row := foundRow{Finding: said[place{f.ID, f.Where}], Head: f.Head, To: to.act(f.Act())}
		if row.Place == "" {
			row.Place = sheet.Place(f.Where)
		}
		for _, by := range f.By {
			row.By = append(row.By, link{by, "/" + by, titleOf(by)})
		}
		rows = append(rows, row)
	}
	return rows
}

// severity takes those of one severity.
func severity(rows []foundRow, s finding.Severity) []foundRow {
	var list []foundRow
	for _, r := range rows {
		if r.Severity == s {
			list = append(list, r)
		}
	}
	return list
}

// glances are the drawings of the year, kept while the year is the same.
type glances struct {
	mu    sync.Mutex
	of    *travel.Result
	units quantity.System
	drawn *drawnYear
}

// drawnYear is the year's picture for a wide page and for a phone.
type drawnYear struct{ Wide, Phone template.HTML }

// glanceWide is what the picture is drawn for beside the list of today, CSS px.
const glanceWide = 600

func (g *glances) draw(res *travel.Result, units quantity.System) *drawnYear {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.drawn == nil || g.of != res || g.units != units {
		at := func(width int) template.HTML { // drawings escape the texts they carry
			return template.HTML(strings.TrimSpace(picture.Glance(res, picture.Options{Width: width, Units: units})))
		}
		g.of, g.units, g.drawn = res, units, &drawnYear{at(glanceWide), at(picture.Phone)}
	}
	return g.drawn
}
