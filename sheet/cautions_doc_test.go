package sheet

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/internal/golden"
)

// docs/cautions.md says what page and book say.
func TestCautionsDoc(t *testing.T) {
	var b strings.Builder
	b.WriteString("# Cautions\n\nWhat every page and every book of Ampstead carries. Written by\n`go test ./sheet -run CautionsDoc -update`; do not edit it.\n")
	for _, c := range Cautions() {
		fmt.Fprintf(&b, "\n## %s\n\n", c.Heading)
		for i, step := range c.Steps {
			fmt.Fprintf(&b, "%d. %s\n", i+1, step)
		}
		b.WriteString(strings.Join(c.Text, "\n\n"))
		if len(c.Text) > 0 {
			b.WriteString("\n")
		}
		for _, s := range c.Sources {
			fmt.Fprintf(&b, "\n*%s* (%s)\n", s.Text, s.Standing)
		}
	}
	golden.Check(t, "../../docs/cautions.md", []byte(b.String()))
}
