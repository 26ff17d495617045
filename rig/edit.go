package rig

import (
	"maps"
	"slices"
	"strings"
)

// Change is one value to write at one path; an empty value removes the key.
type Change struct{ Path, Value string }

// Set returns a new file with one value changed, added or, with "", removed.
// Every other byte stays as it was. The error is Errors when the path or the
// file that would result is not valid; f itself never changes.
func (f *File) Set(path, value string) (*File, error) {
	return f.SetAll(Change{path, value})
}

// SetAll makes several changes of which only the end must be valid.
func (f *File) SetAll(changes ...Change) (*File, error) {
	g := f
	for _, c := range changes {
		next, p := g.change(c.Path, strings.TrimSpace(c.Value))
		if p != nil {
			return nil, Errors{p}
		}
		g = next
	}
	return g.whole(f)
}

// whole checks an edited file as Parse does.
func (f *File) whole(before *File) (*File, error) {
	g, err := Parse(f.Path, f.Text)
	if err != nil {
		return nil, err
	}
	g.disk = before.disk
	return g, nil
}

// splice is one edit of the text: bytes start to end become text.
type splice struct {
	start, end int
	text       string
}

// apply makes the edit and proves that it did what was meant: the values read
// back are the wanted ones and, unless something was removed, no comment went.
func (f *File) apply(path string, s splice, want map[string]string, removes bool) (*File, *Problem) {
	text := slices.Concat(f.Text[:s.start], []byte(s.text), f.Text[s.end:])
	t, p := grow(f.Path, text)
	if p != nil {
		return nil, f.byHand(path)
	}
	kept := removes || slices.Equal(t.comments, f.tree.comments)
	if !kept || !maps.Equal(t.flat(), want) {
		return nil, f.byHand(path)
	}
	return &File{Path: f.Path, Text: text, Rig: f.Rig, tree: t, disk: f.disk}, nil
}

func (f *File) byHand(path string) *Problem {
	return f.Problem(path, "this part of the file is written in a way that can only be changed by hand", "", "")
}

// change makes one change; the result is YAML but need not be a whole rig.
func (f *File) change(path, value string) (*File, *Problem) {
	g, p := f.aim(path)
	if p != nil {
		if next, problem, ok := f.begin(path, value); ok {
			return next, problem
		}
		return nil, p
	}
	if g.field.deep() {
		return nil, f.Problem(path, g.field.key+" holds more than one value", "the path of one value", "")
	}
	there := len(g.rest) == 0
	switch {
	case value == "" && !there:
		return f, nil
	case value == "":
		return f.remove(path, g)
	case there:
		return f.replace(path, value, g)
	}
	return f.add(path, value, g)
}

func (f *File) replace(path, value string, g *target) (*File, *Problem) {
	old := g.last(f.tree.root)
	if old.kind == scalar && old.text == value {
		return f, nil
	}
	if old.end < 0 || old.kind != scalar && old.kind != empty {
		return nil, f.byHand(path)
	}
	text := written(value, old.quote, g.inFlow())
	if old.start == old.end {
		text = " " + text
	}
	want := f.tree.flat()
	want[g.full()] = value
	return f.apply(path, splice{old.start, old.end, text}, want, false)
}

func (f *File) add(path, value string, g *target) (*File, *Problem) {
	want := f.tree.flat()
	s := g.chain(sprout{value: value})
	s.fill(g.path(len(g.hops)), want)
	return f.insert(path, g, s, want)
}
