package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/compare"
	"ampstead/finding"
	"ampstead/quantity"
)

// compareText prints a comparison for a terminal.
type compareText struct {
	w   io.Writer
	res *compare.Result
	sys quantity.System
	all bool
}

func (t *compareText) print(two *pair) {
	head := fmt.Sprintf("%s: %s against %s.", two.is.Rig.About.Name, two.wasCalled, two.called)
	if two.wasCalled == two.was.Rig.About.Name {
		head = fmt.Sprintf("%s against %s.", two.wasCalled, two.called)
	}
	fmt.Fprintln(t.w, wrap(head, 0))
	if two.same() {
		fmt.Fprintln(t.w, "The two files are equal to the byte.")
	}
	if len(t.res.Stages) > 0 {
		fmt.Fprintf(t.w, "Findings of %s: %s before, %s after.\n", strings.Join(t.res.Stages, ", "), tallyWords(t.res.Was), tallyWords(t.res.Is))
	}
	t.changes()
	t.findings()
	for _, stage := range t.res.Stages {
		t.results(stage, two)
	}
	t.missing(two)
	printList(t.w, "WHAT THIS RESTS ON", t.res.Notes)
	printCautions(t.w)
}

func tallyWords(s compare.Side) string {
	return fmt.Sprintf("%d stop, %d care, %d note", s.Stop, s.Care, s.Note)
}

func (t *compareText) changes() {
	printTitle(t.w, "CHANGED IN THE FILE")
	if len(t.res.Changes) == 0 && t.res.Same {
		fmt.Fprintln(t.w, "  nothing")
	} else if len(t.res.Changes) == 0 {
		fmt.Fprintln(t.w, "  comments, order or spelling alone")
	}
	for _, c := range t.res.Changes {
		fmt.Fprintf(t.w, "  %s\n", wrap(changeWords(c), 4))
	}
}

func (t *compareText) findings() {
	if len(t.res.Stages) == 0 {
		return
	}
	printTitle(t.w, "FINDINGS")
	f := t.res.Findings
	t.found("gone", f.Gone)
	t.found("new", f.New)
	for _, p := range f.Changed {
		fmt.Fprintf(t.w, "  %s → %s  %s  [%s]\n      %s\n", p.Was.Severity, p.Is.Severity, p.Is.Where, p.Is.ID, wrap(p.Is.Found, 6))
	}
	if len(f.Gone)+len(f.New)+len(f.Changed) == 0 {
		fmt.Fprint(t.w, "  none went and none came. ")
	} else {
		fmt.Fprint(t.w, "  ")
	}
	fmt.Fprintf(t.w, "%d are found in both.\n", len(f.Same))
}

func (t *compareText) found(word string, list []finding.Finding) {
	for _, f := range list {
		fmt.Fprintf(t.w, "  %-4s  %-4s  %s  [%s]\n      %s\n", word, f.Severity, f.Where, f.ID, wrap(f.Found, 6))
	}
}

// results prints those of one stage that differ, or all.
func (t *compareText) results(stage string, two *pair) {
	var tab table
	same := 0
	tab.row("  "+two.wasCalled, two.called, "change", "", "")
	for _, r := range t.res.Rows {
		if r.Stage != stage {
			continue
		}
		if !r.Differs() && !t.all {
			same++
			continue
		}
		tab.row("  "+or(r.WasText(t.sys)), or(r.IsText(t.sys)), r.ChangeText(t.sys), turnWords(r.Turn), r.What)
	}
	printTitle(t.w, strings.ToUpper(stage))
	if len(tab.rows) > 1 {
		tab.print(t.w)
	}
	switch {
	case same == 1:
		fmt.Fprintln(t.w, "  1 result is the same; --all lists it")
	case same > 1:
		fmt.Fprintf(t.w, "  %d results are the same; --all lists them\n", same)
	}
}

func or(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

// turnWords leaves out what the numbers say by themselves.
func turnWords(turn compare.Turn) string {
	if turn == compare.Gained || turn == compare.Lost {
		return string(turn)
	}
	return ""
}

func (t *compareText) missing(two *pair) {
	for _, m := range t.res.Missing {
		who := two.wasCalled
		if m.Side == "is" {
			who = two.called
		}
		text := fmt.Sprintf("%s could not be reckoned for %s: %s: %s; expected %s", m.Stage, who, m.Path, m.Message, m.Expected)
		fmt.Fprintf(t.w, "\n%s\n", wrap(text, 0))
	}
}
