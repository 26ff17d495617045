package sheet

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"ampstead/finding"
)

// Finding is one finding with its place in the file.
type Finding struct {
	finding.Finding
	Anchor  string // unique in a page
	Meaning string // the severity in words
	Place   string // "roof solar, equalise"
	Line    string // "rig.yaml, line 93", empty when not known
	How     []Working
}

func meaning(s finding.Severity) string {
	switch s {
	case finding.Stop:
		return "do not connect"
	case finding.Care:
		return "worth mending"
	}
	return "worth knowing"
}

func (b *builder) findings() []Finding {
	var list []Finding
	for i, f := range b.res.Findings {
		list = append(list, b.finding(f, f.ID, i))
	}
	return list
}

// finding prepares one; name and its place in the list make its anchor.
func (b *builder) finding(f finding.Finding, name string, i int) Finding {
	f.Found, f.Because, f.Mend = finding.Sentence(f.Found), finding.Sentence(f.Because), finding.Sentence(f.Mend)
	return Finding{Finding: f, Anchor: "finding-" + strconv.Itoa(i+1) + "-" + name,
		Meaning: meaning(f.Severity), Place: Place(f.Where), Line: b.line(f.Where), How: workings(f.Workings, b.sys)}
}

// Tally counts the findings of the fit in words: "3 to stop for, 5 worth mending".
func (m *Model) Tally() string { return tally(m.Findings) }

// Tally counts the findings of the year in words.
func (t *Trip) Tally() string { return tally(t.Findings) }

func tally(list []Finding) string {
	var parts []string
	for _, s := range []struct {
		severity finding.Severity
		words    string
	}{{finding.Stop, "to stop for"}, {finding.Care, "worth mending"}, {finding.Note, "worth knowing"}} {
		if n := count(list, s.severity); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s.words))
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, ", ")
}

// Standing are the findings of fit and wiring together: what is wrong with the rig
// before it moves.
func (m *Model) Standing() []Finding {
	still := *m
	still.Trip, still.Proof, still.Drill, still.Compared = nil, nil, nil, nil
	return still.Together()
}

// TallyStanding counts them in words.
func (m *Model) TallyStanding() string { return tally(m.Standing()) }

// Together are the findings of all stages that ran, most urgent first. What two
// stages found alike, of one rule at one place, stands there once.
func (m *Model) Together() []Finding {
	all := m.stages()
	var list []Finding
	for _, f := range all {
		same := func(g Finding) bool { return g.ID == f.ID && g.Where == f.Where }
		if !slices.ContainsFunc(list, same) {
			list = append(list, f)
		}
	}
	slices.SortStableFunc(list, func(a, b Finding) int { return urgency(a) - urgency(b) })
	return list
}

// Everything is the same as they come, with those of the logbook.
func (m *Model) Everything() []Finding {
	all := m.stages()
	if m.Log != nil {
		all = append(all, m.Log.Findings...)
	}
	return all
}

// stages are the findings of all stages but the logbook.
func (m *Model) stages() []Finding {
	all := slices.Clone(m.Findings)
	if m.Wiring != nil {
		all = append(all, m.Wiring.Findings...)
	}
	if m.Trip != nil {
		all = append(all, m.Trip.Findings...)
	}
	if m.Proof != nil {
		all = append(all, m.Proof.Findings...)
	}
	if m.Drill != nil {
		all = append(all, m.Drill.Findings...)
	}
	if m.Compared != nil {
		all = append(all, m.Compared.Findings...)
	}
	return all
}

func urgency(f Finding) int {
	return slices.Index([]finding.Severity{finding.Stop, finding.Care, finding.Note}, f.Severity)
}

// TallyTogether counts the findings of all stages that ran in words.
func (m *Model) TallyTogether() string { return tally(m.Together()) }

// Stops returns how many findings of all stages that ran say not to connect.
func (m *Model) Stops() int { return count(m.Together(), finding.Stop) }

func count(list []Finding, s finding.Severity) int {
	n := 0
	for _, f := range list {
		if f.Severity == s {
			n++
		}
	}
	return n
}

func (b *builder) line(path string) string {
	if b.file == nil || len(b.file.Text) == 0 || path == "" {
		return ""
	}
	if n := b.file.Line(path); n > 1 {
		return fmt.Sprintf("%s, line %d", filepath.Base(b.file.Path), n)
	}
	return ""
}

// Place says a path of the rig file in words: the list it is in goes without
// saying, and so does the word settings.
func Place(path string) string {
	var words []string
	for _, w := range strings.Split(path, ".") {
		if w == "settings" || w == "protection" {
			continue
		}
		words = append(words, strings.ReplaceAll(w, "_", " "))
	}
	for len(words) > 1 && lists[words[0]] {
		words = words[1:]
	}
	return strings.Join(fromOne(words), ", ")
}

// fromOne says the item of a list without names as people count: group 4, where
// the path counts from 0.
func fromOne(words []string) []string {
	var out []string
	for i, w := range words {
		n, err := strconv.Atoi(w)
		if i == 0 || err != nil {
			out = append(out, w)
			continue
		}
		out[len(out)-1] = fmt.Sprintf("%s %d", strings.TrimSuffix(words[i-1], "s"), n+1)
	}
	return out
}

// lists are the lists of the rig file whose name goes without saying.
var lists = map[string]bool{"charge": true, "converters": true, "inverters": true, "relays": true, "contactors": true, "meters": true, "cutouts": true, "fuses": true, "cables": true, "loads": true, "route": true}
