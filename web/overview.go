package web

import (
	"fmt"
	"net/http"
	"strings"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/quantity"
	"ampstead/sheet"
)

type overviewPage struct {
	Frame frame
	Note  string
	Bank  string
	Tally tally
	Sheet *sheet.Model
	Found []foundRow
	Next  []step
}

// foundRow is a finding with the way to where it is mended.
type foundRow struct {
	sheet.Finding
	To string
}

// step is one thing to do next.
type step struct {
	To, Text string
}

// tally counts the findings and says so in words.
type tally struct {
	Stop, Care, Note int
}

func (s *site) overview(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	to, year, played := now.places(), resultOf(s.trips.known(now)), resultOf(s.drills.known(now))
	model, found := played.with(now.whole().WithTravel(year)), now.foundWith(year, played)
	s.render(w, http.StatusOK, "overview", overviewPage{
		Frame: s.frame(r, "overview", "Overview", now),
		Note:  now.file.Rig.About.Note,
		Bank:  bankSentence(now.result, now.units),
		Tally: tallyOf(found),
		Sheet: model,
		Found: foundRows(model, to),
		Next:  nextSteps(found, to),
	})
}

func foundRows(m *sheet.Model, to places) []foundRow {
	var list []foundRow
	for _, f := range m.Together() {
		list = append(list, foundRow{f, to.link(f.Where)})
	}
	return list
}

func tallyOf(list []finding.Finding) tally {
	return tally{
		Stop: finding.Count(list, finding.Stop),
		Care: finding.Count(list, finding.Care),
		Note: finding.Count(list, finding.Note),
	}
}

// Text says the counts in a sentence. It says what was found, never that
// nothing else is wrong.
func (t tally) Text() string {
	var parts []string
	if t.Stop > 0 {
		parts = append(parts, fmt.Sprintf("%d to stop for", t.Stop))
	}
	if t.Care > 0 {
		parts = append(parts, fmt.Sprintf("%d worth mending", t.Care))
	}
	if t.Note > 0 {
		parts = append(parts, fmt.Sprintf("%d worth knowing", t.Note))
	}
	if len(parts) == 0 {
		return "Nothing found by the checks of the stages that ran"
	}
	return "Found: " + strings.Join(parts, ", ")
}

// bankSentence says in one sentence what the bank is.
func bankSentence(res *fit.Result, units quantity.System) string {
	c := res.Cell
	group := "one cell"
	if c.Parallel > 1 {
		group = fmt.Sprintf("%d cells in parallel", c.Parallel)
	}
	how := c.Basis
	if !c.Measured {
		how += ", not measured"
	}
	return fmt.Sprintf("%d groups in series, each of %s, %s: %s (%s), about %s, with %s to use in the daily window from %s to %s.",
		c.Series, group, c.Title, quantity.AmpereHours.Text(c.Capacity, units), how,
		quantity.Volts.Text(res.Daily.BankNominalV, units), quantity.WattHours.Text(res.Daily.UsableWh, units),
		quantity.Volts.Text(res.Daily.BankLowV, units), quantity.Volts.Text(res.Daily.BankHighV, units))
}

// nextSteps says what to do now, at most three things.
func nextSteps(list []finding.Finding, to places) []step {
	t := tallyOf(list)
	book := step{"/book", "Print the book and go through it with the licensed electrician who checks the installation."}
	sheets := step{"/fit#settings", "Set each device by its sheet, then write what you set into the rig."}
	if t.Stop > 0 {
		first := firstOf(list, finding.Stop)
		return []step{
			{"", "Leave the bank disconnected while anything to stop for is open."},
			{to.link(first.Where), "Mend the first: " + first.Mend + "."},
			sheets,
		}
	}
	if t.Care > 0 {
		first := firstOf(list, finding.Care)
		return []step{{to.link(first.Where), "Mend what is worth mending, first: " + first.Mend + "."}, sheets, book}
	}
	return []step{sheets, book}
}

func firstOf(list []finding.Finding, s finding.Severity) finding.Finding {
	for _, f := range list {
		if f.Severity == s {
			return f
		}
	}
	return finding.Finding{}
}
