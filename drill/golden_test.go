package drill

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/internal/golden"
)

// summary is a drill by its verdicts, for comparing: faults by scenes, then what
// is uncovered and what would cover it. No measured numbers are in it.
func summary(r *Result) string {
	var b strings.Builder
	for _, s := range r.Scenes {
		fmt.Fprintf(&b, "scene: %s\n", s.Name)
	}
	fmt.Fprintf(&b, "%-52s%s\n", "nothing wrong", row(r.Without))
	n := len(r.Scenes)
	for k, f := range r.Faults {
		fmt.Fprintf(&b, "%-52s%s\n", f.Name, row(r.Single[k*n:(k+1)*n]))
	}
	fmt.Fprintf(&b, "single-fault tolerant: %v\n", r.Tolerant)
	for _, u := range r.Uncovered {
		if len(u.Faults) == 1 {
			fmt.Fprintf(&b, "alone: %s: %s in %s; mend: %s\n", u.Faults[0], u.Harm, strings.Join(u.Scenes, ", "), u.Addition)
		}
	}
	for _, g := range r.Pairs.Groups {
		fmt.Fprintf(&b, "pairs: %s; %d in %s; mend: %s\n", g.Cause, len(g.Pairs), strings.Join(g.Scenes, ", "), g.Addition)
	}
	for _, a := range r.Additions {
		fmt.Fprintf(&b, "addition: %s: %d of %d, creates %d\n", a.Name, a.Covers, a.Of, a.Creates)
	}
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "%s %s %s\n", f.Severity, f.ID, f.Where)
	}
	return b.String()
}

// row is a verdict for each scene; ~ marks what nothing tells of.
func row(list []Outcome) string {
	var b strings.Builder
	for _, o := range list {
		word := string(o.Outcome)
		if o.Harm != "" {
			word = strings.ToUpper(o.Harm)
		}
		if o.Silent {
			word += "~"
		}
		fmt.Fprintf(&b, " %-13s", word)
	}
	return strings.TrimRight(b.String(), " ")
}

func TestSummaries(t *testing.T) {
	for _, name := range []string{"curlew-draft", "dipper"} {
		golden.Check(t, name+".txt", []byte(summary(singlesOf(t, name))))
	}
}
