package cli

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"ampstead/finding"
	"ampstead/home"
	"ampstead/rig"
)

// homeText prints where a rig stands for a terminal.
type homeText struct {
	w    io.Writer
	res  *home.Result
	file *rig.File
}

func (t *homeText) print() {
	fmt.Fprintln(t.w, wrap(t.res.Name+": "+t.res.Bank, 0))
	printTitle(t.w, "TODAY")
	for i, a := range t.res.Today {
		fmt.Fprintf(t.w, "%2d  %s\n", i+1, wrap(strings.TrimSpace(a.Do+" "+a.Why), 4))
		if where := t.where(a); where != "" {
			fmt.Fprintf(t.w, "    %s\n", where)
		}
	}
	t.between()
	printTitle(t.w, "THE SEVEN STAGES")
	var tab table
	for i, s := range t.res.Stages {
		tab.row(strconv.Itoa(i+1)+" "+s.Name, s.Standing.Words(), s.State)
	}
	tab.print(t.w)
	printCautions(t.w)
}

// where says at which place in the file, or by which command, something is done.
func (t *homeText) where(a home.Act) string {
	switch {
	case a.Path != "":
		if line := lineOf(t.file, a.Path); line > 1 {
			return fmt.Sprintf("%s (line %d)", a.Path, line)
		}
		return a.Path
	case a.Stage == "home" || a.Stage == "rig" || a.Stage == "":
		return ""
	case a.Stage == "prove" && a.Part == "plan":
		return "ampstead prove --plan"
	case a.Stage == "keep" && a.Part == "enter":
		return "ampstead keep add"
	}
	return "ampstead " + a.Stage
}

// between lists what forbids connecting, what is worth mending, and counts the rest.
func (t *homeText) between() {
	printTitle(t.w, "BETWEEN YOU AND CONNECTING IT")
	for _, s := range []finding.Severity{finding.Stop, finding.Care} {
		for _, f := range t.res.Findings {
			if f.Severity == s {
				fmt.Fprintf(t.w, "%-5s %s\n", s, wrap(f.Where+": "+f.Head+" ["+strings.Join(f.By, ", ")+"]", 6))
			}
		}
	}
	if t.res.Count(finding.Stop) == 0 {
		fmt.Fprintln(t.w, wrap("Nothing to stop for was found by the stages that ran.", 0))
	}
	if n := t.res.Count(finding.Note); n > 0 {
		fmt.Fprintf(t.w, "note  %d worth knowing: the stages print them\n", n)
	}
	if len(t.res.Unsaid) > 0 {
		fmt.Fprintln(t.w, wrap("Not asked yet: "+strings.Join(t.res.Unsaid, ", ")+".", 0))
	}
	for _, a := range t.res.Before {
		fmt.Fprintln(t.w, wrap("Then: "+a.Do, 6))
	}
}
