package web

import (
	"net/http"
)

type rigsPage struct {
	Frame frame
	Rigs  []rigRow
	Why   string // the workshop cannot be read
}

// rigRow is one rig of the workshop.
type rigRow struct {
	To, Name, Folder string
	Tally            tally
	Trouble          bool
}

// rigs lists the rigs of the workshop.
func (h *hall) rigs(w http.ResponseWriter, r *http.Request) {
	p := rigsPage{Frame: h.frame(r, "rigs", "Rigs")}
	slugs, err := h.workshop.slugs()
	if err != nil {
		p.Why = plainReason(err)
	}
	for _, slug := range slugs {
		s, ok := h.workshop.site(slug)
		if !ok {
			continue
		}
		now := s.desk.read()
		row := rigRow{To: h.workshop.address(slug) + "/", Name: now.name(), Folder: slug, Trouble: now.result == nil}
		if row.Name == "" {
			row.Name = slug
		}
		if now.result != nil {
			row.Tally = tallyOf(now.found())
		}
		p.Rigs = append(p.Rigs, row)
	}
	h.render(w, http.StatusOK, "rigs", p)
}
