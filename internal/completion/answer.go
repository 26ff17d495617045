package completion

import (
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// Candidate is one way for the last word to go on.
type Candidate struct {
	Word  string
	About string // one line, may be empty
}

// Source lists the words of one kind; given are the arguments before.
type Source func(given []string) []Candidate

// Answer is what a shell offers.
type Answer struct {
	Paths      bool // the candidates are files and folders
	Candidates []Candidate
}

// Next says how the last of words may go on; an empty last word asks for whatever
// may come next. Words are those after the program's own name.
func Next(app *kong.Application, words []string, sources map[string]Source) Answer {
	if len(words) == 0 {
		words = []string{""}
	}
	last := len(words) - 1
	p := &place{node: app.Node, sources: sources}
	for _, word := range words[:last] {
		p.pass(word)
	}
	out := p.offer(words[last])
	out.Candidates = slices.DeleteFunc(out.Candidates, func(c Candidate) bool { return !strings.HasPrefix(c.Word, words[last]) })
	return out
}

// String is the answer as the scripts read it: "words" or "paths", then a line for
// each candidate, its word and after a tab what it is.
func (a Answer) String() string {
	var b strings.Builder
	b.WriteString("words\n")
	if a.Paths {
		b.Reset()
		b.WriteString("paths\n")
	}
	for _, c := range a.Candidates {
		if strings.ContainsAny(c.Word, "\n\t") {
			continue // a name that no line can carry
		}
		b.WriteString(c.Word)
		if c.About != "" {
			b.WriteString("\t" + strings.Join(strings.Fields(c.About), " "))
		}
		b.WriteString("\n")
	}
	return b.String()
}
