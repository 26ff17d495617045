package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ampstead/rig"
)

// printAnswer prints the answer of a stage, which begins with the rig's name.
func printAnswer(w io.Writer, file *rig.File, lines []string) {
	for i, line := range lines {
		if i == 0 {
			line = file.Rig.About.Name + ": " + line
		}
		fmt.Fprintln(w, wrap(line, 0))
	}
	fmt.Fprintln(w)
}

// printLines prints paragraphs.
func printLines(w io.Writer, lines []string) {
	for _, line := range lines {
		fmt.Fprintln(w, wrap(line, 0))
	}
}

func printTitle(w io.Writer, title string) { fmt.Fprintf(w, "\n%s\n", title) }

// printList prints lines under a title, and nothing when there are none.
func printList(w io.Writer, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	printTitle(w, title)
	for _, line := range lines {
		fmt.Fprintf(w, "  %s\n", wrap(line, 2))
	}
}

// printWrapped prints text behind a lead, and its further lines behind another
// of the same width or less.
func printWrapped(w io.Writer, lead, further, text string) {
	lines := strings.Split(wrap(text, utf8.RuneCountInString(lead)), "\n")
	fmt.Fprintln(w, lead+lines[0])
	for _, line := range lines[1:] {
		fmt.Fprintln(w, further+strings.TrimLeft(line, " "))
	}
}
