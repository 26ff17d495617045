package book

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

	"ampstead/look"
	q "ampstead/quantity"
	"ampstead/sheet"
)

//go:embed book.css
var css string

//go:embed book.html
var text string

// page is what the book's own template shows.
type page struct {
	*sheet.Model
	CSS      template.CSS
	Paper    string // "A4" or "US Letter"
	Chapters []chapter
}

// Write writes the book of a rig as one HTML file that needs nothing else: no
// script, no request, no other file. Date and version come from the model.
func Write(w io.Writer, m *sheet.Model) error {
	paper := *m
	paper.Paper = true
	set, err := sheet.Templates().Funcs(template.FuncMap{"figureTo": paper.FigureAnchor}).New("book").Parse(text)
	if err != nil {
		return fmt.Errorf("book: %w", err)
	}
	p := page{Model: &paper, Paper: paperName(m.Units), Chapters: chapters(&paper)}
	p.CSS = style(p)
	for i := range p.Chapters {
		if err := p.Chapters[i].fill(set, &paper); err != nil {
			return fmt.Errorf("book: chapter %q: %w", p.Chapters[i].Title, err)
		}
	}
	if err := set.ExecuteTemplate(w, "book", p); err != nil {
		return fmt.Errorf("book: %w", err)
	}
	return nil
}

func (c *chapter) fill(set *template.Template, m *sheet.Model) error {
	var out bytes.Buffer
	for _, part := range c.Parts {
		if err := set.ExecuteTemplate(&out, part, m); err != nil {
			return err
		}
	}
	c.Body = template.HTML(out.String())
	return nil
}

func paperName(sys q.System) string {
	if sys == q.US {
		return "US Letter"
	}
	return "A4"
}

// style joins the sheets and adds what only a rule for pages can say: the size
// of the paper and the running lines. Chapters that share a page share its rule,
// for another one would break the page.
func style(p page) template.CSS {
	size, height, tighten := "A4", "252mm", "" // height of the cover: the paper less its margins, and a little room
	if p.Paper == "US Letter" {
		size, height, tighten = "letter", "240mm", "@page { margin-top: 16mm; margin-bottom: 16mm; } @media print { html { font-size: 8.9pt; } }\n"
	}
	var rules strings.Builder
	fmt.Fprintf(&rules, "@page { size: %s; @top-left { content: %s; } }\n@media print { .book .cover { min-height: %s; } }\n",
		size, cssString(p.Model.Rig+" · build book"), height)
	rules.WriteString(tighten)
	fmt.Fprintf(&rules, "@page contents { @top-right { content: \"Contents\"; } }\n#contents { page: contents; }\n")
	sheetName := ""
	for _, c := range p.Chapters {
		if c.Breaks {
			sheetName = c.ID
			fmt.Fprintf(&rules, "@page %s { @top-right { content: %s; } }\n", sheetName, cssString(c.Running))
		}
		fmt.Fprintf(&rules, "#%s { page: %s; }\n", c.ID, sheetName)
	}
	return template.CSS(look.CSS + sheet.CSS + css + rules.String())
}

// cssString quotes a text for a style sheet so that nothing in it can end the
// string or the sheet.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		if r == ' ' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, `\%06x `, r)
	}
	b.WriteByte('"')
	return b.String()
}
