package finding_test

import (
	"testing"

	"ampstead/finding"
)

func TestSortKeepsOrderWithinSeverity(t *testing.T) {
	list := []finding.Finding{{ID: "a", Severity: finding.Note}, {ID: "b", Severity: finding.Stop}, {ID: "c", Severity: finding.Care}, {ID: "d", Severity: finding.Stop}}
	finding.Sort(list)
	got := ""
	for _, f := range list {
		got += f.ID
	}
	if got != "bdca" {
		t.Errorf("order %s, want bdca", got)
	}
}

func TestWorstAndCount(t *testing.T) {
	if got := finding.Worst(nil); got != "" {
		t.Errorf("worst of nothing = %q", got)
	}
	list := []finding.Finding{{Severity: finding.Note}, {Severity: finding.Care}, {Severity: finding.Note}}
	if got := finding.Worst(list); got != finding.Care {
		t.Errorf("worst = %q, want care", got)
	}
	if got := finding.Count(list, finding.Note); got != 2 {
		t.Errorf("notes = %d, want 2", got)
	}
}
