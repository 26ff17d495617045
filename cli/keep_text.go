package cli

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"ampstead/fit"
	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// keepText prints what the logbook tells for a terminal.
type keepText struct {
	w   io.Writer
	res *keep.Result
	sys quantity.System
	log *sheet.Log
}

// sayBegin says how a logbook is begun.
func sayBegin(s *session) {
	n := s.file.Rig.Bank.Series
	values := strings.TrimSpace(strings.Repeat("3.85 ", min(n, 3)))
	if n > 3 {
		values += " ..."
	}
	fmt.Fprintf(s.Stdout, "%s: no reading is in the logbook yet. Let the bank rest some hours, read its %d groups, and begin with\n", s.file.Rig.About.Name, n)
	fmt.Fprintf(s.Stdout, "  ampstead keep meter \"cell meter\" --step \"1 mV\" --error \"5 mV\"\n  ampstead keep add --groups \"%s\" --rested 8 --meter \"cell meter\"\n", values)
	fmt.Fprintln(s.Stdout, "or on a phone with ampstead serve, or from a table with ampstead keep import FILE.csv.")
}

func (t *keepText) print(file *rig.File, log logbook.Log, fitted *fit.Result) {
	t.log = sheet.New(file, fitted, t.sys).WithLog(t.res, log.Readings).Log
	printAnswer(t.w, file, t.log.Answer)
	t.today()
	printFindings(t.w, file, t.res.Findings)
	t.groups()
	printList(t.w, "BALANCE", append(t.log.Balance, prefixed("Not now: ", t.log.Not)...))
	printList(t.w, "CAPACITY", t.log.Capacity)
	printList(t.w, "YEARS AHEAD", append(t.log.Life, t.log.LifeNotes...))
	t.reached("THE WHOLE BANK", t.log.Facts)
	t.reached("HOW LONG UNTIL A LEAK WOULD SHOW", t.log.Visible)
	t.reached("READINGS THAT DO NOT COUNT IN FULL", t.log.Aside)
	if len(t.res.Back) > 0 {
		fmt.Fprintln(t.w, "\nBACK INTO THE DESIGN: ampstead keep accept --write puts into the rig")
		printBack(t.w, t.res.Back)
	}
	fmt.Fprintln(t.w)
	printCautions(t.w)
}

func prefixed(lead string, list []string) []string {
	var out []string
	for _, text := range list {
		out = append(out, lead+text)
	}
	return out
}

func (t *keepText) today() {
	fmt.Fprintln(t.w, "TODAY")
	for i, task := range t.log.Today {
		by := ""
		if task.By != "" {
			by = " By " + task.By + "."
		}
		fmt.Fprintf(t.w, "  %d. %s\n", i+1, wrap(task.Urgency+": "+task.Do+by, 5))
		if task.Why != "" {
			fmt.Fprintf(t.w, "     %s\n", wrap(task.Why, 5))
		}
	}
	if len(t.log.Today) == 0 {
		fmt.Fprintln(t.w, "  Nothing is to be done today that the readings tell of.")
	}
	if t.log.Next != "" {
		fmt.Fprintf(t.w, "  Next visit: %s\n", wrap(strings.TrimSpace(t.log.Next+". "+t.log.NextWhy), 14))
	}
	fmt.Fprintln(t.w)
}

func (t *keepText) groups() {
	if len(t.log.Groups) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nGROUPS, 1 at the negative end; ± is one standard error")
	var tab table
	tab.row("  group", "against the median, Ah", "leak, mA", "to bleed, Ah", "")
	for _, g := range t.log.Groups {
		tab.row("  "+g.Name, g.Offset, g.Drift, g.Bleed, strings.Join(g.Notes, "; "))
	}
	tab.print(t.w)
}

func (t *keepText) reached(title string, list []sheet.Reached) {
	if len(list) == 0 {
		return
	}
	printTitle(t.w, title)
	var tab table
	for _, f := range list {
		tab.row("  "+f.What, f.Value, f.Note)
	}
	tab.print(t.w)
}

func printBack(w io.Writer, back []keep.Change) {
	var tab table
	for _, b := range back {
		tab.row("  "+b.Path, cmp.Or(b.Now, "not given"), "→ "+b.Value, b.Why)
	}
	tab.print(w)
}
