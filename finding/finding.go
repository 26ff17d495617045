package finding

import "sort"

// Severity says what a person should do about a finding.
type Severity string

// The three severities, most urgent first.
const (
	Stop Severity = "stop" // do not connect
	Care Severity = "care" // worth mending
	Note Severity = "note" // worth knowing
)

// Finding is one thing that is wrong or worth knowing about a rig.
type Finding struct {
	ID       string   `json:"id"`       // stable rule name, "equalise-on"
	Severity Severity `json:"severity"` // stop, care or note
	Where    string   `json:"where"`    // path in the rig file, "charge.roof solar.settings.equalise"
	Found    string   `json:"found"`    // what was found, with its numbers
	Because  string   `json:"because"`  // why it matters
	Mend     string   `json:"mend"`     // how to mend it

	Workings []Working `json:"workings,omitempty"` // how its numbers were worked out
}

var rank = map[Severity]int{Stop: 0, Care: 1, Note: 2}

// Sort orders findings by severity, keeping the order of rules within each.
func Sort(list []Finding) {
	sort.SliceStable(list, func(i, j int) bool { return rank[list[i].Severity] < rank[list[j].Severity] })
}

// Worst returns the most urgent severity in the list, or "" when it is empty.
func Worst(list []Finding) Severity {
	worst := Severity("")
	for _, f := range list {
		if worst == "" || rank[f.Severity] < rank[worst] {
			worst = f.Severity
		}
	}
	return worst
}

// Count returns how many findings have the severity.
func Count(list []Finding, s Severity) int {
	n := 0
	for _, f := range list {
		if f.Severity == s {
			n++
		}
	}
	return n
}
