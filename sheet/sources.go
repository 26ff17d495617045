package sheet

import (
	"slices"
	"strings"

	"ampstead/source"
)

// weakness is the warning beside a weak source, empty for a firm one.
func weakness(s source.Source) string {
	switch s.Standing {
	case source.Memory:
		return "from memory"
	case source.Practice:
		return "common practice, no source"
	}
	return ""
}

// stands reports whether the standing of a source is worth saying: not when its
// text says it already.
func stands(s source.Source) bool {
	return s.Standing != "" && !strings.Contains(s.Text, string(s.Standing))
}

// references gathers the sources of figures, cell limits and cautions in
// alphabetical order, each with what rests on it.
func references(m *Model) []Reference {
	var list []Reference
	add := func(s source.Source, what string) {
		if s.Key == "" {
			return
		}
		i := slices.IndexFunc(list, func(r Reference) bool { return r.Key == s.Key })
		if i < 0 {
			i = len(list)
			list = append(list, Reference{Source: s})
		}
		if !slices.Contains(list[i].For, what) {
			list[i].For = append(list[i].For, what)
		}
	}
	for _, f := range m.Figures {
		add(f.Source, f.Name)
	}
	for _, l := range m.Cell {
		add(l.Source, "cell: "+l.What)
	}
	for _, c := range m.Cautions {
		for _, s := range c.Sources {
			add(s, "cautions")
		}
	}
	slices.SortFunc(list, byText)
	return list
}

func byText(a, b Reference) int {
	return strings.Compare(strings.ToLower(a.Text), strings.ToLower(b.Text))
}
