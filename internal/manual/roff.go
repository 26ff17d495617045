package manual

import (
	"fmt"
	"strings"
)

// page gathers the lines of one page.
type page struct {
	b     strings.Builder
	fresh bool // right after a head, where a paragraph begins by itself
}

// line writes one line of macros or text that is escaped already.
func (p *page) line(format string, args ...any) {
	fmt.Fprintf(&p.b, format+"\n", args...)
	p.fresh = false
}

func (p *page) section(head string) {
	p.line(".SH %s", quoted(head))
	p.fresh = true
}

func (p *page) subsection(head string) {
	p.line(".SS %s", quoted(head))
	p.fresh = true
}

// text writes a paragraph.
func (p *page) text(text string) {
	if !p.fresh {
		p.line(".PP")
	}
	p.plain(text)
}

// item writes a name and, set in, what it is.
func (p *page) item(name, text string) {
	p.line(".TP")
	p.line("%s", name)
	p.plain(text)
}

// widest is how long a line of a page's source may be.
const widest = 72

// plain writes text in lines of moderate length; the formatter fills its own.
func (p *page) plain(text string) {
	var row string
	for _, word := range strings.Fields(text) {
		if row != "" && len(row)+1+len(word) > widest {
			p.line("%s", escape(row))
			row = ""
		}
		row = strings.TrimLeft(row+" "+word, " ")
	}
	p.line("%s", escape(row))
}

// special are the characters that roff takes for its own; the accents and
// typographic signs are written by their names, so that the page is plain ASCII.
var special = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`,
	"…", "...", "“", `\(lq`, "”", `\(rq`, "’", `\(cq`, "–", `\(en`, "×", `\(mu`, "°", `\(de`, "Ω", `\(*W`, "·", `\(pc`, "±", `\(+-`, "²", `\(S2`)

// escape makes text safe for a line of its own.
func escape(text string) string {
	text = special.Replace(text)
	if strings.HasPrefix(text, ".") {
		return `\&` + text
	}
	return text
}

// quoted is text as one argument of a macro.
func quoted(text string) string { return `"` + strings.ReplaceAll(escape(text), `"`, `\(dq`) + `"` }

func bold(text string) string   { return `\fB` + escape(text) + `\fR` }
func italic(text string) string { return `\fI` + escape(text) + `\fR` }

// firstSentence is what the line of a page's name says.
func firstSentence(text string) string {
	first, _, _ := strings.Cut(strings.TrimSpace(text), "\n")
	for i, r := range first {
		if (r == '.' || r == '?') && (i+1 == len(first) || first[i+1] == ' ') {
			return strings.TrimSuffix(first[:i+1], ".")
		}
	}
	return first
}
