package book

import (
	"fmt"

	"ampstead/sheet"
)

// visits are the chapters of the logbook: what it tells, and a sheet to fill in by
// hand.
func visits(m *sheet.Model) []chapter {
	blank := chapter{ID: "visit-sheet", Title: "Readings by hand", Hint: fmt.Sprintf("%d groups", len(m.Log.Blank)), Breaks: true, Parts: []string{"keep-blank"},
		Lead: "One column a visit. Enter it into the logbook later: page or command ask back about slips of the pen."}
	if m.Log.Empty {
		return []chapter{blank}
	}
	told := chapter{ID: "log", Title: "The logbook", Hint: m.Log.Readings[0].When, Breaks: true,
		Parts: []string{"keep-answer", "log-today", "keep-trends", "keep-groups", "log-level", "log-capacity", "log-life", "log-findings", "log-readings", "keep-figures"}}
	return []chapter{told, blank}
}
