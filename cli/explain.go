package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/finding"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// explaining is a writer for which findings are printed with their workings.
type explaining struct {
	io.Writer
	sys quantity.System
}

// out is where a stage prints its text: with workings when they are asked for.
func (s stageFlags) out(r *run, of *rig.Rig) io.Writer {
	if !s.Explain {
		return r.Stdout
	}
	return explaining{r.Stdout, system(of)}
}

// printWorkings prints what stands behind the numbers of a finding.
func printWorkings(e explaining, f finding.Finding) {
	for k, w := range sheet.Workings(f, e.sys) {
		head := "      how    "
		if k > 0 {
			head = strings.Repeat(" ", 13)
		}
		text := w.What
		if w.Figure != "" {
			text = w.Figure + ": " + text
		}
		if w.In != "" {
			text += " " + w.In
		}
		if w.Out != "" {
			text += " -> " + w.Out
		}
		if w.Source != "" {
			text += " (" + w.Source + "; " + w.Standing + ")"
		}
		if w.Title != "" {
			text += " (" + strings.ToLower(w.Title[:1]) + w.Title[1:] + ": " + strings.Join(f.Workings[k].Chain, ", ") + ")"
		}
		fmt.Fprintf(e, "%s%s\n", head, wrap(text, 13))
	}
}
