package rig

import (
	"errors"
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/scanner"
	"github.com/goccy/go-yaml/token"
)

// Bounds of what is read at all. A long, full rig file has about 20 kB.
const (
	maxBytes  = 1 << 20
	maxTokens = 60_000
	maxDepth  = 24
	maxIndent = 120
	maxItems  = 500 // in one list
	maxBlank  = 50  // lines in a row: the reader's time grows with their square
	// maxProblems are reported at once; more would not be read.
	maxProblems = 100
)

// guardText refuses what no rig file holds, before the YAML reader sees it.
func guardText(name string, text []byte) *Problem {
	if len(text) > maxBytes {
		return &Problem{File: name, Line: 1, Column: 1,
			Message: fmt.Sprintf("the file has %d bytes", len(text)), Expected: "a rig file of at most 1 MB"}
	}
	line, column, leading, blank := 1, 1, true, 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if why := unreadable(r, size, leading, text[i:]); why != nil {
			why.File, why.Line, why.Column = name, line, column
			return why
		}
		i, column = i+size, column+1
		leading = leading && (r == ' ' || r == '\ufeff' || r == '\r' || r == '\n')
		if r != '\n' {
			continue
		}
		blank++
		if !leading {
			blank = 0
		}
		if blank > maxBlank {
			return &Problem{File: name, Line: line, Column: 1,
				Message: "the file has too many blank lines in a row", Expected: fmt.Sprintf("at most %d", maxBlank)}
		}
		line, column, leading = line+1, 1, true
	}
	return nil
}

func unreadable(r rune, size int, leading bool, rest []byte) *Problem {
	switch {
	case r == utf8.RuneError && size == 1:
		return &Problem{Message: "a byte here is not UTF-8 text", Expected: "a file saved as UTF-8"}
	case r == '\t' && leading:
		return &Problem{Message: "the line is indented with a tab", Expected: "spaces, two for each step"}
	case r == '\r' && (len(rest) < 2 || rest[1] != '\n'):
		return &Problem{Message: "a carriage return stands alone", Expected: "lines that end with a line feed"}
	case unicode.IsControl(r) && r != '\n' && r != '\r' && r != '\t', r == '\u2028', r == '\u2029':
		return &Problem{Message: fmt.Sprintf("a control character (U+%04X) stands here", r), Expected: "plain text"}
	}
	return nil
}

const unreadableYAML = "the file cannot be read as YAML"

// refused are the parts of YAML that a rig file does without, so that one
// value always stands in one place.
var refused = map[token.Type]string{
	token.AnchorType:     "an anchor (&) is not used in a rig file",
	token.AliasType:      "an alias (*) is not used in a rig file",
	token.TagType:        "a tag (!) is not used in a rig file",
	token.DirectiveType:  "a line or value that starts with % needs quotes",
	token.MergeKeyType:   "a merge key (<<) is not used in a rig file",
	token.MappingKeyType: "a key that starts with ? is not used in a rig file",
}

// scan splits the text into tokens and stops at the first that is refused:
// unused parts of YAML, and nesting deep enough to exhaust the reader.
func scan(name, text string) (token.Tokens, *Problem) {
	var s scanner.Scanner
	var tokens token.Tokens
	g := guard{name: name}
	s.Init(text)
	for {
		next, err := s.Scan()
		if errors.Is(err, io.EOF) {
			return tokens, nil
		}
		if err != nil && len(next) == 0 {
			return nil, &Problem{File: name, Line: 1, Column: 1, Message: unreadableYAML}
		}
		tokens.Add(next...)
		for _, t := range next {
			if p := g.check(t); p != nil {
				return nil, p
			}
		}
	}
}

// guard counts what the tokens so far have opened.
type guard struct {
	name                  string
	tokens, depth, dashes int
}

func (g *guard) check(t *token.Token) *Problem {
	g.tokens++
	g.nesting(t)
	switch {
	case t.Error != "":
		p := plainly(t.Error)
		return g.fail(t, p.Message, p.Expected)
	case refused[t.Type] != "":
		return g.fail(t, refused[t.Type], "the value written out, in quotes if it starts with a sign")
	case g.tokens > maxTokens:
		return g.fail(t, "the file has more parts than a rig can have", "")
	case g.depth > maxDepth, g.dashes > maxDepth, t.Position.Column > maxIndent && firstOnLine(t):
		return g.fail(t, "this is nested too deeply", "")
	}
	return nil
}

func (g *guard) fail(t *token.Token, message, expected string) *Problem {
	return &Problem{File: g.name, Line: t.Position.Line, Column: max(1, t.Position.Column), Message: message, Expected: expected}
}

func (g *guard) nesting(t *token.Token) {
	switch t.Type {
	case token.SequenceEntryType:
		g.dashes++
		return
	case token.MappingStartType, token.SequenceStartType:
		g.depth++
	case token.MappingEndType, token.SequenceEndType:
		g.depth = max(0, g.depth-1)
	}
	g.dashes = 0
}

func firstOnLine(t *token.Token) bool {
	return t.Prev == nil || t.Prev.Position.Line != t.Position.Line
}
