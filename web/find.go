package web

import "strings"

// mostFound is how many values a search shows.
const mostFound = 60

// sift leaves what has all the words in its name, its part's name or its value; when
// nothing has, what has them in its explanation.
func sift(groups []group, words string) []group {
	list := strings.Fields(strings.ToLower(words))
	if found := siftBy(groups, list, false); len(found) > 0 {
		return found
	}
	return siftBy(groups, list, true)
}

func siftBy(groups []group, words []string, deep bool) []group {
	left := mostFound
	var out []group
	for _, g := range groups {
		var sections []section
		for _, s := range g.Sections {
			if s.sift(g.Title, words, deep, &left) {
				sections = append(sections, s)
			}
		}
		if g.Sections, g.Add = sections, nil; len(sections) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// sift leaves the values of a section that match, at most as many as are left.
func (s *section) sift(title string, words []string, deep bool, left *int) bool {
	var parts []part
	for _, p := range s.Parts {
		var found []field
		for _, list := range [][]field{p.Given, p.More} {
			for _, f := range list {
				hay := title + " " + s.Title + " " + f.Label + " " + f.Written
				if deep {
					hay += " " + f.Doc
				}
				if *left > 0 && hasAll(strings.ToLower(hay), words) {
					found = append(found, f)
					*left--
				}
			}
		}
		if p.Given, p.More, p.Item = found, nil, nil; len(found) > 0 {
			parts = append(parts, p)
		}
	}
	s.Parts, s.Adds, s.Item, s.Open = parts, nil, nil, true
	return len(parts) > 0
}

func hasAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}
