package fit_test

import (
	"testing"

	"ampstead/examples"
	"ampstead/internal/worked"
)

func TestNumbersOfFindingsAreWorkedOut(t *testing.T) {
	for _, name := range examples.Names() {
		worked.Check(t, run(t, load(t, name)).Findings)
	}
}
