package web

import (
	"fmt"
	"strings"

	"ampstead/finding"
)

// tally counts the findings and says so in words.
type tally struct {
	Stop, Care, Note int
}

func tallyOf(list []finding.Finding) tally {
	return tally{
		Stop: finding.Count(list, finding.Stop),
		Care: finding.Count(list, finding.Care),
		Note: finding.Count(list, finding.Note),
	}
}

// Text says the counts in a sentence. It says what was found, never that
// nothing else is wrong.
func (t tally) Text() string {
	var parts []string
	if t.Stop > 0 {
		parts = append(parts, fmt.Sprintf("%d to stop for", t.Stop))
	}
	if t.Care > 0 {
		parts = append(parts, fmt.Sprintf("%d worth mending", t.Care))
	}
	if t.Note > 0 {
		parts = append(parts, fmt.Sprintf("%d worth knowing", t.Note))
	}
	if len(parts) == 0 {
		return "Nothing found by the checks of the stages that ran"
	}
	return "Found: " + strings.Join(parts, ", ")
}
