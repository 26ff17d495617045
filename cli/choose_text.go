package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/choose"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// chooseText prints a comparison for a terminal.
type chooseText struct {
	w   io.Writer
	res *choose.Result
	sys quantity.System
}

func (t *chooseText) print(file *rig.File) {
	printAnswer(t.w, file, sheet.ChooseAnswer(t.res, t.sys))
	printFindings(t.w, file, t.res.Findings)
	t.table()
	t.misfits()
	t.limits()
	t.front()
	t.windows()
	t.asks()
	t.assumed()
	fmt.Fprintln(t.w)
	printLines(t.w, sheet.ChooseCautions())
	printCautions(t.w)
}

// table prints the batteries side by side.
func (t *chooseText) table() {
	if len(t.res.Candidates) == 0 {
		return
	}
	printTitle(t.w, "SIDE BY SIDE, * the best of its row")
	for from := 0; from < len(t.res.Candidates); from += mostAbreast {
		abreast{t.w, from, min(len(t.res.Candidates), from+mostAbreast)}.print(t.res, t.sys)
	}
}

func (t *chooseText) misfits() {
	rows := sheet.MisfitRows(t.res)
	if len(rows) == 0 {
		return
	}
	printTitle(t.w, "WHAT DOES NOT SUIT, and what must change")
	battery := ""
	for _, m := range rows {
		if m.Battery != battery {
			battery = m.Battery
			fmt.Fprintf(t.w, "  %s\n", battery)
		}
		must := ""
		if m.Exchange {
			must = "MUST GO, "
		}
		fmt.Fprintf(t.w, "    %s\n", wrap(must+m.Device+": "+m.Found+". Then: "+m.Mend, 6))
	}
}

func (t *chooseText) limits() {
	printTitle(t.w, "WHAT ENDS EACH")
	for _, l := range sheet.LimitsOf(t.res, t.sys) {
		fmt.Fprintf(t.w, "  %s\n", wrap(strings.Join(l.Said, " "), 4))
		for _, d := range l.Doubts {
			fmt.Fprintf(t.w, "    %s\n", wrap(d, 6))
		}
	}
}

// front prints what a search came to.
func (t *chooseText) front() {
	if t.res.Search == nil {
		return
	}
	printTitle(t.w, "THE BEST WHOLE RIG")
	for _, line := range sheet.SearchedWords(t.res) {
		fmt.Fprintf(t.w, "  %s\n", wrap(line, 2))
	}
	if len(t.res.Front) == 0 {
		return
	}
	printTitle(t.w, "RIGS THAT NO OTHER BEATS IN EVERYTHING, the cheapest first; --apply takes the number")
	var tab table
	tab.row("  no", "price", "mass", "short", "years", "usable", "best at")
	rows := sheet.DesignRows(t.res, t.sys)
	for _, d := range rows {
		tab.row(fmt.Sprintf("  %2d", d.No), d.Price, d.Mass, d.Hours, d.Years, d.Usable, d.Why)
	}
	tab.print(t.w)
	for _, d := range rows {
		fmt.Fprintf(t.w, "  %2d  %s\n", d.No, wrap(d.Name, 6))
	}
}

func (t *chooseText) windows() {
	rows := sheet.WindowsTried(t.res, t.sys)
	if len(rows) == 0 {
		return
	}
	printTitle(t.w, "DAILY WINDOWS: what charging and discharging to less brings, and costs")
	var tab table
	tab.row("  one cell", "usable", "years", "short now", "in 10 years", "")
	for _, w := range rows {
		name := w.Title
		if w.Pick {
			name = strings.TrimPrefix(name+", SERVES BEST", ", ")
		}
		tab.row("  "+w.Volts, w.Usable, w.Years, w.Hours, w.Late, name)
	}
	tab.print(t.w)
	for _, w := range rows {
		if w.Pick {
			fmt.Fprintf(t.w, "  to set by it: ampstead fit RIG --set 'bank.daily.high=%.3f V' --set 'bank.daily.low=%.3f V'\n", w.HighV, w.LowV)
		}
	}
}

func (t *chooseText) asks() {
	lists := sheet.AskLists(t.res)
	if len(lists) == 0 {
		return
	}
	printTitle(t.w, "AT THE SELLER'S: what to ask and measure, to print")
	for _, a := range lists {
		fmt.Fprintf(t.w, "  ampstead choose RIG --ask %q: %d questions, %d measurements\n", a.Battery, len(a.Questions), len(a.Measures))
	}
}

func (t *chooseText) assumed() {
	printTitle(t.w, "TAKEN")
	for _, line := range t.res.Assumed {
		fmt.Fprintf(t.w, "  %s\n", wrap(line, 2))
	}
}

// printAsk prints a list to take along.
func printAsk(w io.Writer, file *rig.File, a *sheet.AskList) {
	fmt.Fprintf(w, "%s\n", wrap(file.Rig.About.Name+": what to ask and measure of "+a.Battery+", "+a.Kind, 0))
	fmt.Fprintf(w, "\nseller: ____________________   date: __________   asked by: ______________\n")
	for _, part := range []struct {
		title string
		list  []choose.Ask
		box   string
	}{{"ASK AND LOOK", a.Questions, "[ ]"}, {"MEASURE", a.Measures, "[ ] ________"}} {
		if len(part.list) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n", part.title)
		for i, one := range part.list {
			fmt.Fprintf(w, "%2d. %s %s\n", i+1, part.box, wrap(one.Ask, 4))
			fmt.Fprintf(w, "    good: %s\n", wrap(one.Good, 10))
			fmt.Fprintf(w, "    walk away at: %s\n", wrap(one.Refuse, 18))
		}
	}
	fmt.Fprintln(w)
	printLines(w, sheet.ChooseCautions())
}
