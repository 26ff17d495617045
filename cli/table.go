package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// textWidth is the line length texts are wrapped to, in characters.
const textWidth = 100

// table prints columns that line up; the last one is wrapped.
type table struct {
	rows [][]string
}

func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

func (t *table) print(w io.Writer) {
	widths := t.widths()
	indent := 0
	for _, width := range widths {
		indent += width + 2
	}
	for _, row := range t.rows {
		last := len(row) - 1
		var line strings.Builder
		for k, cell := range row[:last] {
			line.WriteString(cell + strings.Repeat(" ", widths[k]-utf8.RuneCountInString(cell)+2))
		}
		line.WriteString(wrap(row[last], indent))
		fmt.Fprintln(w, strings.TrimRight(line.String(), " "))
	}
}

// widths are those of all columns but the last.
func (t *table) widths() []int {
	var widths []int
	for _, row := range t.rows {
		for k, cell := range row[:len(row)-1] {
			if k == len(widths) {
				widths = append(widths, 0)
			}
			widths[k] = max(widths[k], utf8.RuneCountInString(cell))
		}
	}
	return widths
}

// wrap breaks text between words so that lines which begin after indent
// characters stay within textWidth; further lines are indented.
func wrap(text string, indent int) string {
	room := max(textWidth-indent, 30)
	var b strings.Builder
	used := 0
	for k, word := range strings.Fields(text) {
		size := utf8.RuneCountInString(word)
		switch {
		case k == 0:
		case used+1+size > room:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += size
	}
	return b.String()
}
