package sheet

import (
	"slices"
	"unicode/utf8"
)

// widest is the most characters of a result that stand well in a column.
const widest = 28

// noteWords takes results in words out of the columns and keeps each once.
func (f *Figure) noteWords() {
	for k := len(f.Terms) - 1; k >= 0; k-- {
		if !f.Terms[k].Out || !f.wide(k) {
			continue
		}
		for i, use := range f.Uses {
			if note := f.Terms[k].Name + ": " + use[k].Text; use[k].Text != "" && !slices.Contains(f.Notes, note) {
				f.Notes = append(f.Notes, note)
			}
			f.Uses[i] = slices.Delete(slices.Clone(use), k, k+1)
		}
		f.Terms = slices.Delete(f.Terms, k, k+1)
	}
	f.Uses = slices.CompactFunc(f.Uses, slices.Equal)
}

func (f *Figure) wide(k int) bool {
	return slices.ContainsFunc(f.Uses, func(use []Term) bool { return utf8.RuneCountInString(use[k].Text) > widest })
}
