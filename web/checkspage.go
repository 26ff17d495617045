package web

import (
	"fmt"
	"net/http"
	"strings"
	"time"

	"ampstead/figure"
	"ampstead/handbook"
	"ampstead/quantity"
)

type checksPage struct {
	Frame   frame
	Stage   string // "" for all
	Stages  []string
	Summary string
	Differ  int
	Took    string
	Figures []checkedRow
}

// checkedRow is one figure with its checks, by source.
type checkedRow struct {
	Name, Answers, Verdict string
	Open                   bool
	Stages                 []string
	Groups                 []checkGroup
}

type checkGroup struct {
	Source string
	Rows   []checkRow
}

// checkRow is one check. Texts have neither difference nor tolerance.
type checkRow struct {
	What, Expected, Got, Off, Tolerance string
	Pass                                bool
}

// checks runs every published check of the handbook, or of one stage's figures,
// as the page is opened.
func (s *site) checks(w http.ResponseWriter, r *http.Request) {
	stage := r.URL.Query().Get("stage")
	list := handbook.Of(stage, s.config.Figures)
	if len(list) == 0 {
		s.missing(w, r)
		return
	}
	start := time.Now()
	report := handbook.Verify(list)
	p := checksPage{Frame: s.frame(r, "figures", "What it was checked against", s.desk.read()), Stage: stage, Stages: handbook.StageNames,
		Summary: checksSummary(report, s.config.Now()), Differ: report.Differ, Took: fmt.Sprintf("%d ms", max(1, time.Since(start).Milliseconds()))}
	for _, c := range report.Figures {
		p.Figures = append(p.Figures, checkedOf(c))
	}
	s.render(w, http.StatusOK, "checks", p)
}

// checksSummary says what ran, when, and how many came out otherwise.
func checksSummary(r handbook.Report, now time.Time) string {
	return fmt.Sprintf("%d checks of %d figures ran on this machine on %s: %s by more than their tolerance.",
		r.Checks, len(r.Figures), now.Format("2 January 2006, 15:04"), differ(r.Differ))
}

func differ(n int) string {
	if n == 1 {
		return "1 differs"
	}
	return fmt.Sprintf("%d differ", n)
}

func checkedOf(c handbook.Checked) checkedRow {
	row := checkedRow{Name: c.Figure.Name, Answers: c.Figure.Answers, Open: c.Differ > 0, Stages: handbook.Stages(c.Figure.Name), Groups: checkGroups(c)}
	switch share, ok := c.Worst(); {
	case c.Differ > 0:
		row.Verdict = fmt.Sprintf("%s, %s", countChecks(len(c.Outcomes)), differ(c.Differ))
	case ok && share >= 0.005:
		row.Verdict = fmt.Sprintf("%s within tolerance, the farthest at %.0f %% of it", countChecks(len(c.Outcomes)), 100*share)
	default:
		row.Verdict = countChecks(len(c.Outcomes)) + ", none apart"
	}
	return row
}

func countChecks(n int) string {
	if n == 1 {
		return "1 check"
	}
	return fmt.Sprintf("%d checks", n)
}

// checkGroups puts the checks of one source together, in the order they stand.
func checkGroups(c handbook.Checked) []checkGroup {
	var groups []checkGroup
	at := map[string]int{}
	for k, o := range c.Outcomes {
		g, ok := at[o.Source]
		if !ok {
			g, at[o.Source] = len(groups), len(groups)
			groups = append(groups, checkGroup{Source: o.Source})
		}
		groups[g].Rows = append(groups[g].Rows, checkOf(c.Figure, c.Figure.Checks[k], o))
	}
	return groups
}

func checkOf(f *figure.Figure, c figure.Check, o figure.Outcome) checkRow {
	unit := ""
	for _, out := range f.Outputs {
		if out.Key == c.Output {
			unit = unitAfter(out.Dim)
		}
	}
	what := strings.TrimSpace(o.Note)
	if what == "" {
		what = strings.Join(c.In, ", ")
	}
	row := checkRow{What: what, Expected: checkText(o.Expected, unit), Got: checkText(o.Got, unit), Pass: o.Pass}
	if off, ok := handbook.Difference(o); ok {
		row.Off, row.Tolerance = fmt.Sprintf("%.2g", off), fmt.Sprintf("%.2g", o.Tolerance)
	}
	return row
}

func unitAfter(d *quantity.Dimension) string {
	if d == nil || d.Base == "" || d == quantity.Fraction {
		return ""
	}
	return " " + d.Base
}

// longestCheck is how much of a text or list a check shows.
const longestCheck = 90

func checkText(v any, unit string) string {
	if f, ok := v.(float64); ok {
		return fmt.Sprintf("%.7g", f) + unit
	}
	text := []rune(figure.Show(nil, v, quantity.Metric))
	if len(text) > longestCheck {
		return string(text[:longestCheck]) + "…"
	}
	return string(text)
}
