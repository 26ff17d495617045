package book

import (
	"strings"

	"ampstead/sheet"
)

// proof are the chapters of what a test of the module told and of the test to
// run; without a log the first says that none is kept.
func proof(m *sheet.Model) []chapter {
	var list []chapter
	told := chapter{ID: "proof", Title: "The proof of the module", Hint: "no log is kept", Breaks: true, Parts: []string{"prove-none"}}
	if m.Proof != nil {
		told.Hint = strings.TrimPrefix(m.Proof.Grade+", by its newest log", ", ")
		told.Parts = []string{"prove-answer", "proof-log", "proof-groups", "proof-rest", "proof-findings", "proof-told", "prove-figures"}
	}
	if m.Proof != nil || m.Plan != nil {
		list = append(list, told)
	}
	if m.Plan != nil {
		list = append(list, chapter{ID: "test-plan", Title: "Test plan", Hint: "steps to the bench", Breaks: true, Parts: []string{"prove-plan"},
			Lead: "For a charger that can be set to these limits and a load of about a quarter of the capacity an hour. Prove makes one for the gear you have."})
	}
	return list
}
