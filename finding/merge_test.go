package finding_test

import (
	"testing"

	"ampstead/finding"
)

func TestMergeShowsEachOnce(t *testing.T) {
	a := finding.Finding{ID: "a", Where: "x", Severity: finding.Note}
	b := finding.Finding{ID: "a", Where: "y", Severity: finding.Stop}
	got := finding.Merge([]finding.Finding{a, b}, []finding.Finding{b, a}, nil)
	if len(got) != 2 || got[0].Where != b.Where || got[1].Where != a.Where {
		t.Errorf("got %+v", got)
	}
}
