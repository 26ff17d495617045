package rig

import (
	"maps"
	"slices"
	"strings"
)

// Words that a comment behind a value starts with while the value is open: one
// that nobody read off a device, and one answered with "I do not know".
const (
	checkMark   = "CHECK"
	unknownMark = "NOT KNOWN"
)

// open reports whether a comment says that its value is still to be checked.
func open(remark string) bool {
	return strings.HasPrefix(remark, checkMark) || strings.HasPrefix(remark, unknownMark)
}

// remark is the comment behind a value on its own line, without its sign, and
// where it starts, with the blanks before it; "" when there is none.
func (t *tree) remark(n *node) (text string, start, end int) {
	if n == nil || n.end < 0 || n.kind != scalar || n.quote == literal {
		return "", 0, 0
	}
	stop := t.places.lineEnd(n.end)
	rest := strings.TrimRight(string(t.places.text[n.end:stop]), "\r\n")
	trimmed := strings.TrimLeft(rest, " \t")
	if !strings.HasPrefix(trimmed, "#") || len(trimmed) == len(rest) {
		return "", 0, 0
	}
	return strings.TrimSpace(strings.TrimLeft(trimmed, "#")), n.end, n.end + len(rest)
}

// mark puts a comment behind the values at paths that says they are examples.
// Values in braces, or with a comment already, are left as they are.
func (f *File) mark(paths []string) *File {
	text := f.Text
	var places []int
	for _, path := range paths {
		g, p := f.aim(path)
		if p != nil || len(g.rest) > 0 || g.inFlow() {
			continue
		}
		n := g.last(f.tree.root)
		if n.kind != scalar || n.end < 0 || n.quote == literal {
			continue
		}
		if blank(f.Text[n.end:f.tree.places.lineEnd(n.end)]) {
			places = append(places, n.end)
		}
	}
	slices.Sort(places)
	for _, at := range slices.Backward(places) {
		text = slices.Concat(text[:at], []byte("   # "+exampleMark), text[at:])
	}
	return f.sameWith(text)
}

// unmark takes the comment away that says that the value at path is open.
func (f *File) unmark(path string) *File {
	text, start, end := f.tree.remark(f.tree.at(path))
	if text == "" || !open(text) {
		return f
	}
	return f.sameWith(slices.Concat(f.Text[:start], f.Text[end:]))
}

// sameWith is the file with other comments: with the text when its values are the
// same, else as it was.
func (f *File) sameWith(text []byte) *File {
	t, p := grow(f.Path, text)
	if p != nil || !maps.Equal(t.flat(), f.tree.flat()) {
		return f
	}
	return &File{Path: f.Path, Text: text, Rig: f.Rig, tree: t, disk: f.disk}
}

// Checked returns a new file in which the values at paths are no longer marked as
// to be checked. The error is Errors when a path is not valid.
func (f *File) Checked(paths ...string) (*File, error) {
	g := f
	for _, path := range paths {
		if _, p := f.aim(path); p != nil {
			return nil, Errors{p}
		}
		g = g.unmark(path)
	}
	return g.whole(f)
}
