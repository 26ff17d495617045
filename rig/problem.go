package rig

import (
	"encoding/json"
	"fmt"
	"strings"
)

// Problem is one mistake in a rig file and where it stands.
type Problem struct {
	File         string // as it was named to Parse or Open
	Line, Column int    // from 1; the column counts characters and points at the value
	Path         string // such as "charge.roof solar.limit"; empty for the whole file
	Message      string // what is wrong
	Expected     string // what belongs there; may be empty
	Example      string // a value a person could write; may be empty
}

// Error writes the problem on one line, place first.
func (p *Problem) Error() string {
	parts := []string{p.Message}
	if hint := p.Hint(); hint != "" {
		parts = append(parts, hint)
	}
	text := strings.Join(parts, "; ")
	if p.Path != "" {
		text = p.Path + ": " + text
	}
	return fmt.Sprintf("%s:%d:%d: %s", p.File, p.Line, p.Column, text)
}

// Hint says what was expected, with the example.
func (p *Problem) Hint() string {
	var parts []string
	if p.Expected != "" {
		parts = append(parts, "expected "+p.Expected)
	}
	if p.Example != "" {
		parts = append(parts, "example: "+p.Example)
	}
	return strings.Join(parts, "; ")
}

// MarshalJSON writes file, line, column, path, message and hint.
func (p *Problem) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		File    string `json:"file"`
		Line    int    `json:"line"`
		Column  int    `json:"column"`
		Path    string `json:"path"`
		Message string `json:"message"`
		Hint    string `json:"hint"`
	}{p.File, p.Line, p.Column, p.Path, p.Message, p.Hint()})
}

// Errors is every problem found in a file, in the order of the file.
type Errors []*Problem

// Error writes one problem a line.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, p := range e {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives each problem to errors.As.
func (e Errors) Unwrap() []error {
	all := make([]error, len(e))
	for i, p := range e {
		all[i] = p
	}
	return all
}
