package cli

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"ampstead/drill"
)

// verdictCell is how a run ended, in four letters.
var verdictCell = map[drill.Verdict]string{drill.Harm: "HARM", drill.Near: "near", drill.Caught: "held", drill.Nuisance: "lost", drill.None: "-"}

// nameWide is the room for a fault's name in the matrix.
const nameWide = 38

// matrix prints the faults by scenes; a tilde marks a silent run.
func (t *drillText) matrix() {
	fmt.Fprintln(t.w, "EVERY FAULT IN EVERY SCENE")
	fmt.Fprintln(t.w, wrap("HARM harm, near less than the last layer may be off, held a layer acted in time, lost power lost needlessly, - nothing had to act, ~ silent; at the end of a row, in every scene", 0))
	for i, s := range t.res.Scenes {
		fmt.Fprintf(t.w, "  %s  %s\n", sceneLetter(i), wrap(s.Name+": "+s.About, 5))
	}
	fmt.Fprintln(t.w, t.line("", func(i int) string { return sceneLetter(i) }, "nearest"))
	if plain := t.res.Plain(); plain.Worst != nil {
		t.row("nothing wrong", plain)
	}
	device := ""
	for _, row := range t.res.Rows() {
		if row.Fault.Device != device {
			device = row.Fault.Device
			fmt.Fprintln(t.w, device)
		}
		t.row(row.Fault.Short(), row)
	}
}

// row prints the cells of a row and how near to harm its worst came. A fault that
// is silent in every scene says so once.
func (t *drillText) row(name string, row drill.Row) {
	nearest := ""
	if row.Worst != nil {
		nearest = row.Worst.Nearness()
	}
	if row.Silent {
		nearest += " ~"
	}
	fmt.Fprintln(t.w, t.line(name, func(i int) string { return verdictText(row.Cells[i], row.Silent) }, nearest))
}

// line sets one row; a name that is too long stands on a line of its own.
func (t *drillText) line(name string, cell func(i int) string, last string) string {
	var b strings.Builder
	lead := "  " + name
	if utf8.RuneCountInString(name) > nameWide {
		b.WriteString(lead + "\n")
		lead = ""
	}
	pad(&b, lead, nameWide+3)
	for i := range t.res.Scenes {
		pad(&b, cell(i), 6)
	}
	return strings.TrimRight(b.String()+last, " ")
}

// pad writes text and spaces up to a width.
func pad(b *strings.Builder, text string, width int) {
	b.WriteString(text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))))
}

func verdictText(o *drill.Outcome, allSilent bool) string {
	if o == nil {
		return ""
	}
	text, known := verdictCell[o.Outcome]
	if !known {
		text = string(o.Outcome)
	}
	if o.Silent && !allSilent {
		text += "~"
	}
	return text
}

func sceneLetter(i int) string { return string(rune('a' + i%26)) }
