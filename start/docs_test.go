package start

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/internal/golden"
)

const docsHead = `# The guided start

What ` + "`ampstead new`" + ` and the page *A new rig* ask, why, and what "I do not know" leads
to. This page is written by ` + "`go test ./start -run Docs -update`" + `; do not edit it.
What a question says may depend on the answers before it; here it stands as for
somebody who has answered nothing.

Every answer is also a flag of that name: ` + "`ampstead new my-rig --battery module-flat\n--groups 12 --capacity '94 Ah'`" + `. A flag that is left out counts as "I do not know".

The rig file holds all answers at its top. Below, ` + "`NOT KNOWN`" + ` marks what was answered
"I do not know", and ` + "`CHECK`" + ` a usual value that nobody asked for. Settings of
chargers, relays and meters are left out until somebody has read them off: what is
not written down is not checked, and the findings say so.

`

// The page in docs is what the questions say.
func TestDocsListTheQuestions(t *testing.T) {
	var b strings.Builder
	b.WriteString(docsHead)
	for _, q := range Questions(Answers{}) {
		fmt.Fprintf(&b, "## %s\n", q.Ask)
		fmt.Fprintf(&b, "`--%s`", q.Key)
		if q.Trade != "" {
			fmt.Fprintf(&b, " (%s)", q.Trade)
		}
		fmt.Fprintf(&b, ", such as `%s`. %s\n\n", q.Example, strings.TrimSpace(q.Why+" "+q.How))
		for _, c := range q.Choices {
			fmt.Fprintf(&b, "- `%s`: %s", c.Value, c.Label)
			if c.Note != "" {
				fmt.Fprintf(&b, "; %s", c.Note)
			}
			b.WriteString("\n")
		}
		if q.Typed != "" {
			fmt.Fprintf(&b, "- or %s\n", q.Typed)
		}
		fmt.Fprintf(&b, "\n*I do not know:* %s\n\n", q.Unknown)
	}
	golden.Check(t, "../../docs/start.md", []byte(strings.TrimRight(b.String(), "\n")+"\n"))
}
