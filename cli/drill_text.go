package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/drill"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// drillText prints a drill for a terminal.
type drillText struct {
	w   io.Writer
	res *drill.Result
	sys quantity.System
}

func (t *drillText) print(file *rig.File) {
	printAnswer(t.w, file, sheet.DrillAnswer(t.res))
	printFindings(t.w, file, t.res.Findings)
	t.matrix()
	t.uncovered()
	t.pairs()
	t.additions()
	t.silent()
	t.margins()
	t.rehearsal()
	printList(t.w, "ASSUMED, because the file does not say", t.res.Assumed)
	fmt.Fprintln(t.w)
	printLines(t.w, sheet.DrillCautions())
	printCautions(t.w)
}

func (t *drillText) uncovered() {
	printTitle(t.w, "WHAT HAS NO COVER: single faults")
	n := 0
	for _, u := range t.res.Uncovered {
		if len(u.Faults) != 1 {
			continue
		}
		n++
		fmt.Fprintf(t.w, "  %s\n", wrap(u.Faults[0]+": "+drill.HarmWords(u.Harm)+", in "+strings.Join(u.Scenes, "; ")+silentWord(u.Silent), 4))
		fmt.Fprintf(t.w, "    covered by: %s\n", wrap(orNothing(u.Addition), 16))
	}
	if n == 0 {
		fmt.Fprintf(t.w, "  %s\n", wrap(sheet.NoSingles(t.res), 2))
	}
}

func silentWord(silent bool) string {
	if silent {
		return "; silent"
	}
	return ""
}

func orNothing(addition string) string {
	if addition == "" {
		return "nothing of what was tried"
	}
	return addition
}

// mostPairs is how many pairs of a group are named.
const mostPairs = 4

func (t *drillText) pairs() {
	if t.res.Pairs.Runs == 0 {
		return
	}
	p := &t.res.Pairs
	printTitle(t.w, fmt.Sprintf("TWO FAULTS AT ONCE: %d pairs, %d runs: %d harm, %d near, %d held, %d lost", p.Faults, p.Runs, p.Harm, p.Near, p.Caught, p.Nuisance))
	for i, g := range p.Groups {
		fmt.Fprintf(t.w, "  %d. %s\n", i+1, wrap(g.Cause+": "+drill.HarmWords(g.Harm)+", in "+strings.Join(g.Scenes, "; ")+silentWord(g.Silent), 5))
		fmt.Fprintf(t.w, "     covered by: %s\n", wrap(orNothing(g.Addition), 17))
		for k, pair := range g.Pairs {
			if k == mostPairs {
				fmt.Fprintf(t.w, "     and %d pairs more\n", len(g.Pairs)-k)
				break
			}
			fmt.Fprintf(t.w, "     %s\n", wrap(pair[0]+" with "+pair[1], 7))
		}
	}
}

func (t *drillText) additions() {
	if len(t.res.Additions) == 0 {
		return
	}
	printTitle(t.w, "ADDITIONS TRIED, by running the same faults again with them")
	for _, a := range t.res.Additions {
		fmt.Fprintf(t.w, "  %s\n", wrap(fmt.Sprintf("%s: covers %d of %d runs that reach harm; makes %d new ones; takes power needlessly in %d", a.Name, a.Covers, a.Of, a.Creates, a.Loss), 4))
		fmt.Fprintf(t.w, "      %s\n", wrap(a.About, 6))
	}
}

func (t *drillText) silent() {
	list := sheet.SilentByDevice(t.res)
	if len(list) == 0 {
		return
	}
	printTitle(t.w, "SILENT: nothing tells anybody until a second fault comes")
	for _, name := range list {
		fmt.Fprintf(t.w, "  %s\n", wrap(name, 4))
	}
}

func (t *drillText) margins() {
	if len(t.res.Margins) == 0 {
		return
	}
	printTitle(t.w, "HOW FAR SET-POINTS CAN DRIFT before a run ends otherwise, tightest first")
	var tab table
	rows := sheet.MarginRows(t.res, t.sys)
	tab.row("  set-point", "set to", "down by", "up by", "tolerance")
	for _, m := range rows {
		tab.row("  "+m.Device+", "+m.Setting, m.Value, m.Down, m.Up, m.Tolerance)
	}
	tab.print(t.w)
	for _, m := range rows {
		for _, change := range m.Changes {
			fmt.Fprintf(t.w, "  %s\n", wrap(m.Device+", "+m.Setting+", "+change, 4))
		}
	}
}

func (t *drillText) rehearsal() {
	if len(t.res.Rehearsal) == 0 {
		return
	}
	printTitle(t.w, "REHEARSAL: what can be tried for real at commissioning; the page and the book have the steps")
	for _, r := range t.res.Rehearsal {
		fmt.Fprintf(t.w, "  %s\n", wrap(r.Name+": tests "+r.Tests, 4))
	}
}
