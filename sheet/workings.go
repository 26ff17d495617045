package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// Working is one thing behind the numbers of a finding, as text.
type Working struct {
	What     string
	Figure   string // name in the handbook
	In, Out  string // "setting 49.2 V, series 12"
	Model    string // of a run: key of how it is reckoned
	Title    string // of that
	Source   string
	Standing string
}

// Workings writes what stands behind a finding's numbers, as on the page.
func Workings(f finding.Finding, sys q.System) []Working { return workings(f.Workings, sys) }

// workings writes what stands behind a finding's numbers in one system of units.
func workings(list []finding.Working, sys q.System) []Working {
	var out []Working
	for _, w := range list {
		out = append(out, Working{What: w.What, Figure: w.Figure, In: values(w.Inputs, sys), Out: values(w.Outputs, sys),
			Model: w.Model, Title: working.Find(w.Model).Title, Source: w.Source, Standing: w.Standing})
	}
	return out
}

func values(list []finding.Value, sys q.System) string {
	var parts []string
	for _, v := range list {
		if text := valueText(v, sys); text != "" {
			parts = append(parts, strings.ReplaceAll(plainName(v.Name), "_", " ")+" "+text)
		}
	}
	return strings.Join(parts, ", ")
}

// plainName is a name for a reader: the unit at the end of an output's key shows in
// the value.
func plainName(name string) string {
	if strings.Contains(name, " ") {
		return name
	}
	name, _ = working.Key(name)
	return name
}

func valueText(v finding.Value, sys q.System) string {
	switch x := v.Value.(type) {
	case float64:
		return inUnit(x, v.Unit, sys)
	case []float64:
		var parts []string
		for _, each := range x {
			parts = append(parts, inUnit(each, v.Unit, sys))
		}
		return strings.Join(parts, "; ")
	case nil:
		return ""
	}
	if text := fmt.Sprint(v.Value); len([]rune(text)) <= longest {
		return text
	}
	return "" // where limits come from, an owner's whole curve: the figure's own page tells
}

func inUnit(v float64, unit string, sys q.System) string {
	switch unit {
	case working.Share:
		return q.Fraction.Text(v, sys)
	case "":
		return strconv.FormatFloat(v, 'g', 5, 64)
	}
	if d := dimensionOf(unit); d != nil && d != q.Fraction {
		return measure(d, v, sys)
	}
	return strconv.FormatFloat(v, 'g', 4, 64) + " " + unit
}

// Names lists the figures behind a finding, each once.
func (f Finding) Names() []string {
	var list []string
	seen := map[string]bool{}
	for _, w := range f.How {
		if w.Figure != "" && !seen[w.Figure] {
			seen[w.Figure] = true
			list = append(list, w.Figure)
		}
	}
	return list
}

// FigureAnchor leads to a figure in the chapter of figures, "" where it is not there.
func (m *Model) FigureAnchor(name string) string {
	if slices.ContainsFunc(m.Figures, func(f Figure) bool { return f.Name == name }) {
		return "#figure-" + name
	}
	return ""
}

// chainOf is how a simulation is reckoned, for the part that tells of it.
func chainOf(key string) working.Chain { return working.Find(key) }
