package wire_test

import (
	"testing"

	"ampstead/examples"
	"ampstead/internal/worked"
)

func TestNumbersOfFindingsAreWorkedOut(t *testing.T) {
	for _, name := range examples.Names() {
		worked.Check(t, example(t, name).Findings)
	}
}
