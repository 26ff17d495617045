package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ampstead/choose"
	"ampstead/quantity"
	"ampstead/sheet"
)

// The table of batteries, in characters: read on a terminal of 80.
const (
	mostAbreast  = 5
	propertyWide = 25
	abreastWide  = 80
	widestCell   = 22
)

// abreast is some batteries side by side.
type abreast struct {
	w        io.Writer
	from, to int
}

func (a abreast) print(res *choose.Result, sys quantity.System) {
	wide := min(widestCell, (abreastWide-propertyWide)/(a.to-a.from))
	var names []string
	for _, c := range res.Candidates[a.from:a.to] {
		names = append(names, c.Name)
	}
	a.row("", names, wide)
	for _, g := range sheet.CompareTable(res, sys) {
		fmt.Fprintln(a.w, g.Title)
		for _, r := range g.Rows {
			var cells []string
			for _, c := range r.Cells[a.from:a.to] {
				cells = append(cells, cellText(c))
			}
			a.row("  "+strings.TrimSpace(r.What), cells, wide)
		}
	}
}

func cellText(c sheet.CompareCell) string {
	text := c.Text
	if c.Best {
		text += "*"
	}
	if c.Range != "" {
		text += " (" + c.Range + ")"
	}
	return text
}

// row sets one property, its cells wrapped in their columns.
func (a abreast) row(what string, cells []string, wide int) {
	lines := 1
	var set [][]string
	for _, c := range cells {
		part := broken(c, wide-1)
		set, lines = append(set, part), max(lines, len(part))
	}
	for n := range lines {
		var b strings.Builder
		pad(&b, what, propertyWide)
		what = ""
		for _, part := range set {
			text := ""
			if n < len(part) {
				text = part[n]
			}
			pad(&b, text, wide)
		}
		fmt.Fprintln(a.w, strings.TrimRight(b.String(), " "))
	}
}

// broken breaks a text into lines of a width: between words, else after a hyphen,
// else anywhere.
func broken(text string, wide int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= wide {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for utf8.RuneCountInString(word) > wide {
			head, rest := cutWord(word, wide)
			lines, word = append(lines, head), rest
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

func cutWord(word string, wide int) (head, rest string) {
	all := []rune(word)
	head = string(all[:wide])
	if k := strings.LastIndex(head, "-"); k > 0 {
		return word[:k+1], word[k+1:]
	}
	return head, string(all[wide:])
}
