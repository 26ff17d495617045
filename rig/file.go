package rig

import (
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"
)

// FileName is the design file in a rig's folder.
const FileName = "rig.yaml"

// File is a rig file: its text and what it means.
type File struct {
	Path string // as given to Parse or Open
	Text []byte
	Rig  *Rig

	tree *tree
	disk []byte // what lay on disk when it was opened
}

// Parse reads the text of a rig file. The error is Errors with every problem
// found.
func Parse(name string, text []byte) (*File, error) {
	t, p := grow(name, text)
	if p != nil {
		return nil, Errors{p}
	}
	f := &File{Path: name, Text: text, Rig: &Rig{}, tree: t}
	if problems := f.read(); len(problems) > 0 {
		return nil, problems.sorted()
	}
	return f, nil
}

func (f *File) read() Errors {
	r := &reader{name: f.Path}
	start := &node{line: 1, column: 1}
	root := f.tree.root
	switch {
	case root == nil || root.kind == empty:
		r.tear(start, "", "the file is empty", "at least about and bank", "about: {name: Curlew}")
		return r.problems
	case root.kind != mapping:
		r.tear(root, "", "the file is "+root.what(), "keys such as about, bank and charge", "")
		return r.problems
	}
	r.block(root, start, rigShape, reflect.ValueOf(f.Rig).Elem(), "")
	r.problems = append(r.problems, f.contradictions(r.torn)...)
	return r.problems
}

// Open reads the rig file at path, or rig.yaml in the folder at path. The
// error is Errors when the file is there and wrong.
func Open(path string) (*File, error) {
	path = filePath(path)
	text, err := readWhole(path)
	if err != nil {
		return nil, err
	}
	f, err := Parse(path, text)
	if err != nil {
		return nil, err
	}
	f.disk = text
	return f, nil
}

// readWhole reads at most one byte more than a rig file may have.
func readWhole(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, missing(path, err)
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a file", path)
	}
	return io.ReadAll(io.LimitReader(file, maxBytes+1))
}

func missing(path string, err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("there is no rig file %s: %w", path, os.ErrNotExist)
	}
	return err
}

// Line returns the line where the value at path stands, or that of the nearest
// part of the path that is there, at least 1.
func (f *File) Line(path string) int { return f.Problem(path, "", "", "").Line }

// Problem places a message at the value of path.
func (f *File) Problem(path, message, expected, example string) *Problem {
	p := &Problem{File: f.Path, Line: 1, Column: 1, Path: path,
		Message: message, Expected: expected, Example: example}
	if n := f.tree.nearestTo(path); n != nil {
		p.Line, p.Column = n.line, n.column
	}
	return p
}
