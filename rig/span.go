package rig

import (
	"bytes"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

func (t *tree) scalar(tok *token.Token, kind nodeKind) *node {
	n := &node{kind: kind, text: tok.Value}
	n.start = t.place(n, tok)
	n.quote, n.end = t.span(tok, n.start)
	if n.end >= 0 || kind == empty {
		return n
	}
	// The reader's own count is kept when the text there is not the token's.
	n.line, n.column = tok.Position.Line, max(1, tok.Position.Column)
	return n
}

// span finds how a scalar is quoted and where it ends, -1 when the text at
// start is not what the token says.
func (t *tree) span(tok *token.Token, start int) (quoting, int) {
	text := t.places.text[start:]
	switch tok.Type {
	case token.SingleQuoteType:
		return single, endAt(start, singleEnd(text))
	case token.DoubleQuoteType:
		return double, endAt(start, doubleEnd(text))
	}
	raw := strings.TrimSpace(tok.Origin)
	if raw == "" || !bytes.HasPrefix(text, []byte(raw)) {
		return plain, -1
	}
	return plain, start + len(raw)
}

func endAt(start, length int) int {
	if length < 0 {
		return -1
	}
	return start + length
}

// singleEnd returns the length of a 'text' with ” for a quote inside it.
func singleEnd(text []byte) int {
	if len(text) == 0 || text[0] != '\'' {
		return -1
	}
	for i := 1; i < len(text); i++ {
		if text[i] != '\'' {
			continue
		}
		if i+1 < len(text) && text[i+1] == '\'' {
			i++
			continue
		}
		return i + 1
	}
	return -1
}

// doubleEnd returns the length of a "text" with \" for a quote inside it.
func doubleEnd(text []byte) int {
	if len(text) == 0 || text[0] != '"' {
		return -1
	}
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return -1
}

// literal is a text of several lines behind | or >. It ends with its last line
// that is indented deeper than the line it starts on.
func (t *tree) literal(v *ast.LiteralNode) *node {
	n := &node{kind: scalar, quote: literal, text: v.Value.Value}
	n.start = t.place(n, v.Start)
	outer := t.indent(n.line)
	end := n.line
	for line := n.line + 1; line <= len(t.places.lines); line++ {
		if t.blank(line) {
			continue
		}
		if t.indent(line) <= outer {
			break
		}
		end = line
	}
	n.end = t.contentEnd(end)
	return n
}

func (t *tree) lineText(line int) []byte {
	start, end := t.places.lines[line-1], len(t.places.text)
	if line < len(t.places.lines) {
		end = t.places.lines[line]
	}
	return bytes.TrimRight(t.places.text[start:end], "\r\n")
}

func (t *tree) blank(line int) bool { return len(bytes.TrimSpace(t.lineText(line))) == 0 }

// indent counts the spaces, and the dashes of list items, before a line's text.
func (t *tree) indent(line int) int {
	text := t.lineText(line)
	n := len(text) - len(bytes.TrimLeft(text, " "))
	for bytes.HasPrefix(text[n:], []byte("- ")) {
		n += len(text[n:]) - len(bytes.TrimLeft(text[n+1:], " "))
	}
	return n
}

// contentEnd is the byte behind the last character of a line.
func (t *tree) contentEnd(line int) int {
	return t.places.lines[line-1] + len(t.lineText(line))
}
