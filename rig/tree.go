package rig

import (
	"errors"
	"fmt"
	"strings"

	yaml "github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// tree is the file as nodes, with its comments.
type tree struct {
	name     string
	places   *places
	root     *node // nil when the file holds no value
	comments []string
}

// grow reads YAML into a tree. It stops at the first mistake of syntax.
func grow(name string, text []byte) (*tree, *Problem) {
	if p := guardText(name, text); p != nil {
		return nil, p
	}
	// The scanner counts a line that ends in a comment and a carriage return twice.
	tokens, p := scan(name, strings.ReplaceAll(string(text[len(mark(text)):]), "\r\n", "\n"))
	if p != nil {
		return nil, p
	}
	t := &tree{name: name, places: newPlaces(text)}
	for _, tok := range tokens {
		if tok.Type == token.CommentType {
			t.comments = append(t.comments, strings.TrimSpace(tok.Value))
		}
	}
	body, p := t.body(tokens)
	if p != nil || body == nil {
		return t, p
	}
	t.root, p = t.node(body)
	return t, p
}

// body returns the one document of the file, nil when it is empty.
func (t *tree) body(tokens token.Tokens) (body ast.Node, p *Problem) {
	file, p := t.parse(tokens)
	if p != nil {
		return nil, p
	}
	for _, doc := range file.Docs {
		if doc.Body == nil || doc.Body.Type() == ast.CommentType {
			continue
		}
		if body != nil {
			return nil, t.fail(doc.Body.GetToken(), "a second document starts here", "one rig in one file, without ---")
		}
		body = doc.Body
	}
	return body, nil
}

// parse calls the YAML parser. It is code from elsewhere that a strange file
// could bring to a panic; that file is then reported as unreadable.
func (t *tree) parse(tokens token.Tokens) (file *ast.File, p *Problem) {
	defer func() {
		if recover() != nil {
			p = &Problem{File: t.name, Line: 1, Column: 1, Message: unreadableYAML}
		}
	}()
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return file, nil
	}
	var wrong *yaml.SyntaxError
	if errors.As(err, &wrong) && wrong.Token != nil {
		said := plainly(wrong.Message)
		return nil, t.fail(wrong.Token, said.Message, said.Expected)
	}
	return nil, &Problem{File: t.name, Line: 1, Column: 1, Message: err.Error()}
}

func (t *tree) fail(tok *token.Token, message, expected string) *Problem {
	return &Problem{File: t.name, Line: tok.Position.Line, Column: max(1, tok.Position.Column),
		Message: message, Expected: expected}
}

func (t *tree) node(from ast.Node) (*node, *Problem) {
	switch v := from.(type) {
	case *ast.MappingNode:
		return t.mapping(v)
	case *ast.MappingValueNode:
		return t.block([]*ast.MappingValueNode{v})
	case *ast.SequenceNode:
		return t.list(v)
	case *ast.NullNode:
		return t.scalar(v.Token, empty), nil
	case *ast.LiteralNode:
		return t.literal(v), nil
	case ast.ScalarNode:
		return t.scalar(v.GetToken(), scalar), nil
	}
	return nil, t.fail(from.GetToken(), fmt.Sprintf("%s is not used in a rig file", strings.ToLower(from.Type().String())), "")
}

func (t *tree) mapping(v *ast.MappingNode) (*node, *Problem) {
	if !v.IsFlowStyle {
		return t.block(v.Values)
	}
	n, p := t.entries(v.Values)
	if p != nil {
		return nil, p
	}
	t.flow(n, v.Start, v.End)
	return n, nil
}

// block is a mapping written one key a line.
func (t *tree) block(values []*ast.MappingValueNode) (*node, *Problem) {
	n, p := t.entries(values)
	if p != nil {
		return nil, p
	}
	first, last := n.entries[0].key, n.entries[len(n.entries)-1]
	n.line, n.column, n.start = first.line, first.column, first.start
	n.end = last.value.end
	return n, nil
}

func (t *tree) entries(values []*ast.MappingValueNode) (*node, *Problem) {
	n := &node{kind: mapping}
	for _, v := range values {
		key, p := t.node(v.Key)
		if p != nil {
			return nil, p
		}
		if key.kind != scalar {
			return nil, t.fail(v.Key.GetToken(), "this is not a key", "a word, a colon, and a value")
		}
		value, p := t.value(v)
		if p != nil {
			return nil, p
		}
		n.entries = append(n.entries, entry{key, value})
	}
	return n, nil
}

// value reads an entry's value; a missing one lies just behind its colon.
func (t *tree) value(v *ast.MappingValueNode) (*node, *Problem) {
	value, p := t.node(v.Value)
	if p != nil || value.kind != empty {
		return value, p
	}
	colon := t.places.offset(v.Start.Position.Line, v.Start.Position.Column)
	if value.end < 0 || value.start <= colon {
		value.start, value.end = colon+1, colon+1
		value.line, value.column = t.places.at(colon + 1)
	}
	return value, nil
}

func (t *tree) list(v *ast.SequenceNode) (*node, *Problem) {
	n := &node{kind: list}
	for i, from := range v.Values {
		value, p := t.node(from)
		if p != nil {
			return nil, p
		}
		one := item{dash: -1, value: value}
		if !v.IsFlowStyle && i < len(v.Entries) {
			one.dash = t.place(n, v.Entries[i].Start)
		}
		n.items = append(n.items, one)
	}
	n.steps = itemSteps(n.items)
	if v.IsFlowStyle {
		t.flow(n, v.Start, v.End)
		return n, nil
	}
	n.start = t.place(n, v.Start)
	n.end = n.items[len(n.items)-1].value.end
	return n, nil
}

// place sets the node's line and column from a token and returns its byte.
func (t *tree) place(n *node, tok *token.Token) int {
	start := t.places.offset(tok.Position.Line, tok.Position.Column)
	n.line, n.column = t.places.at(start)
	return start
}

func (t *tree) flow(n *node, start, end *token.Token) {
	n.flow = true
	n.start, n.end = t.place(n, start), -1
	if end == nil {
		return
	}
	if at := t.places.offset(end.Position.Line, end.Position.Column); at < len(t.places.text) {
		n.end = at + 1
	}
}
