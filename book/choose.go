package book

import "ampstead/sheet"

// batteries are the chapters of the comparison: what was found, and a list for
// each seller.
func batteries(m *sheet.Model) []chapter {
	list := []chapter{{ID: "batteries", Title: "Which battery", Hint: m.Compared.Count, Breaks: true,
		Parts: []string{"choose-answer", "batteries-table", "batteries-misfits", "batteries-lives", "batteries-front", "batteries-window", "batteries-remarks", "batteries-findings", "batteries-basis"}}}
	if n := len(m.Compared.Asks); n > 0 {
		list = append(list, chapter{ID: "sellers", Title: "At the seller's", Hint: counted(n, "list"), Breaks: true, Parts: []string{"choose-cautions", "choose-asks"},
			Lead: "What to ask, look at and measure before any money changes hands. One list for each battery; tick it off on the spot."})
	}
	return list
}
