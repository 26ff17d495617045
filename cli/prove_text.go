package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// proveText prints what a log told for a terminal.
type proveText struct {
	w    io.Writer
	file *rig.File // nil without a rig
	log  string
	p    *sheet.Proof
	res  *prove.Result
	sys  quantity.System
}

func (t *proveText) print() {
	fmt.Fprintf(t.w, "%s: %s\n", filepath.Base(t.log), wrap(t.p.Layout, 0))
	fmt.Fprintf(t.w, "%d rows read, %d could not be read\n\n", t.res.Rows, t.res.UnreadAll)
	printLines(t.w, t.p.Answer)
	t.reasons()
	t.facts()
	t.groups()
	t.rests()
	if len(t.res.Findings) > 0 {
		fmt.Fprintln(t.w)
		printFindings(t.w, t.file, t.res.Findings)
	}
	t.warnings()
	t.unread()
	t.told()
	t.next()
}

func (t *proveText) reasons() {
	if len(t.p.Reasons) > 0 {
		fmt.Fprintln(t.w, "\nWHY")
	}
	for _, line := range t.p.Reasons {
		fmt.Fprintf(t.w, "  - %s\n", wrap(line, 4))
	}
	fmt.Fprintln(t.w)
}

func (t *proveText) facts() {
	var tab table
	tab.row("THE WHOLE", "", "")
	for _, f := range t.p.Facts {
		tab.row("  "+f.What, f.Value, f.Note)
	}
	tab.print(t.w)
}

func (t *proveText) groups() {
	if len(t.p.Groups) == 0 {
		fmt.Fprintln(t.w, "\nThe log has no voltages of single groups, so nothing can be told of them.")
		return
	}
	fmt.Fprintln(t.w, "\nGROUPS, 1 at the negative end; ± is one standard error")
	var tab table
	head := []string{"  group", "capacity Ah", "mΩ", "below fullest Ah", "comes back Ah", "lost Ah"}
	if t.p.Leaks {
		head = append(head, "leak mA")
	}
	tab.row(append(head, "at rest V", "at the end V", "")...)
	for _, g := range t.p.Groups {
		row := []string{"  " + g.Name, g.Capacity, g.Ohm, g.Offset, g.Comes, g.Lost}
		if t.p.Leaks {
			row = append(row, g.Leak)
		}
		tab.row(append(row, g.Rest, g.End, strings.Join(g.Notes, ", "))...)
	}
	tab.print(t.w)
	for _, why := range t.p.Unknown {
		fmt.Fprintf(t.w, "  %s\n", wrap("Capacity, offset and loss of single groups could not be had. "+why, 2))
	}
}

func (t *proveText) rests() {
	if len(t.p.Rests) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nAT REST")
	var tab table
	for _, r := range t.p.Rests {
		tab.row("  "+r.What, r.Value, r.Note)
	}
	tab.print(t.w)
}

func (t *proveText) warnings() {
	if len(t.p.Warnings) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nFAULTS OF THE LOG, and what they spoil")
	for _, x := range t.p.Warnings {
		fmt.Fprintf(t.w, "  [%s] %s\n", x.ID, wrap(strings.TrimSpace(x.Found+" "+x.Because), 4))
	}
}

func (t *proveText) unread() {
	if len(t.p.Unread) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nROWS NOT READ")
	for _, line := range t.p.Unread {
		fmt.Fprintf(t.w, "  %s\n", line)
	}
}

func (t *proveText) told() {
	if len(t.p.NotTold) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nWHAT THIS LOG TELLS OF THE PUBLISHED STEPS FOR USED BATTERIES")
	var tab table
	for _, s := range t.p.NotTold {
		tab.row("  "+tickBox(s.Told), s.Told, strings.TrimSpace(s.Step+". "+s.Note))
	}
	tab.print(t.w)
}

// tickBox is empty where something is left to do by hand.
func tickBox(told string) string {
	if told == "yes" {
		return "[x]"
	}
	return "[ ]"
}

func (t *proveText) next() {
	if len(t.p.Next) == 0 {
		return
	}
	fmt.Fprintln(t.w, "\nNEXT")
	for k, line := range t.p.Next {
		fmt.Fprintf(t.w, "  %d. %s\n", k+1, wrap(line, 5))
	}
}

// show prints all logs, as text or as JSON.
func (p *proof) show(all []proven, changes []change) error {
	if p.c.JSON {
		return writeJSON(p.Stdout, p.report(all, changes))
	}
	sys := p.system()
	for _, one := range all {
		m := (&sheet.Model{Units: sys, Rig: p.rigName()}).WithProof(filepath.Base(one.log), one.res)
		t := &proveText{w: p.Stdout, file: p.file, log: one.log, p: m.Proof, res: one.res, sys: sys}
		t.print()
		fmt.Fprintln(p.Stdout)
	}
	p.printKept()
	p.printChanges(changes)
	printCautions(p.Stdout)
	return nil
}

func (p *proof) system() quantity.System {
	switch {
	case p.file != nil:
		return system(p.file.Rig)
	case p.c.Units == "us":
		return quantity.US
	}
	return quantity.Metric
}

func (p *proof) rigName() string {
	if p.file == nil {
		return ""
	}
	return p.file.Rig.About.Name
}

func (p *proof) printKept() {
	if len(p.kept) == 0 {
		return
	}
	fmt.Fprintf(p.Stdout, "KEPT WITH THE RIG, newest first: %s\n", wrap(strings.Join(p.kept, ", "), 0))
}
