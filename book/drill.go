package book

import (
	"fmt"

	"ampstead/sheet"
)

// faults are the chapters of the drill: what was found, the runs, and the sheet
// to rehearse by.
func faults(m *sheet.Model) []chapter {
	list := []chapter{
		{ID: "drill", Title: "When something fails", Hint: m.Drill.Count, Breaks: true,
			Parts: []string{"drill-answer", "drill-matrix", "fails-singles", "fails-findings", "fails-pairs", "fails-silent", "fails-margins", "fails-layers", "fails-tried"}},
	}
	if runs := len(m.PaperRuns()) + len(m.Glimpses()); runs > 0 {
		list = append(list, chapter{ID: "runs", Title: "The runs", Hint: counted(runs, "strip"), Breaks: true, Parts: []string{"drill-strips", "fails-others"},
			Lead: "Every fault in the scene in which it went worst. Those that reach harm or come near it stand first and in full."})
	}
	return append(list, chapter{ID: "rehearsal", Title: "Rehearsal", Hint: counted(len(m.Drill.Rehearsal), "test"), Breaks: true, Parts: []string{"drill-cautions", "drill-rehearsal"},
		Lead: "What can be tried for real at commissioning without harm. Sign each when it was seen, and again when it is set back."})
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
