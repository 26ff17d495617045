package rig

import (
	"fmt"
	"reflect"
	"sort"
	"strings"
)

// reader fills the types from a tree and collects every problem on its way.
type reader struct {
	name     string
	problems Errors
	torn     bool // a key is missing, unknown or misshapen: names may be missing too
}

func (r *reader) add(at *node, path, message, expected, example string) {
	if len(r.problems) >= maxProblems {
		return
	}
	r.problems = append(r.problems, &Problem{File: r.name, Line: at.line, Column: at.column,
		Path: path, Message: message, Expected: expected, Example: example})
}

// tear is add for a problem that leaves a part of the file unread.
func (r *reader) tear(at *node, path, message, expected, example string) {
	r.torn = true
	r.add(at, path, message, expected, example)
}

// block reads a mapping into a struct. at is where a missing key is reported.
func (r *reader) block(n, at *node, s *shape, into reflect.Value, path string) {
	seen := map[string]bool{}
	for _, e := range n.entries {
		key := e.key.text
		f := s.field(key)
		switch {
		case f == nil:
			r.unknown(e.key, s, path)
		case seen[key]:
			r.tear(e.key, join(path, key), "this key stands here twice", "one "+key, "")
		default:
			r.value(e, f, into.Field(f.index), join(path, key))
		}
		seen[key] = true
	}
	for i := range s.fields {
		if f := &s.fields[i]; f.need && !seen[f.key] {
			r.tear(at, join(path, f.key), "is missing", f.expected(), f.line())
		}
	}
}

func (r *reader) unknown(key *node, s *shape, path string) {
	message, expected := noKey(key.text, s)
	r.tear(key, join(path, key.text), message, expected, "")
}

func (r *reader) value(e entry, f *field, into reflect.Value, path string) {
	switch {
	case f.kind == block:
		r.inner(e, f, into, path)
	case f.kind == blocks:
		r.list(e.value, f, into, path)
	case e.value.kind == empty:
		r.add(e.value, path, "has no value", f.expected()+", or no such key", f.example())
	case e.value.kind != scalar:
		r.tear(e.value, path, "is "+e.value.what(), f.expected(), f.example())
	default:
		if p := f.read(e.value.text, into); p != nil {
			r.add(e.value, path, p.Message, p.Expected, p.Example)
		}
	}
}

func (r *reader) inner(e entry, f *field, into reflect.Value, path string) {
	switch {
	case e.value.kind == empty && !f.need:
		return
	case e.value.kind != mapping && e.value.kind != empty:
		r.tear(e.value, path, "is "+e.value.what(), "keys below it: "+strings.Join(f.inner.keys(), ", "), "")
		return
	}
	if into.Kind() == reflect.Pointer {
		into.Set(reflect.New(f.inner.typ))
		into = into.Elem()
	}
	r.block(e.value, e.key, f.inner, into, path)
}

func (r *reader) list(n *node, f *field, into reflect.Value, path string) {
	if n.kind == empty {
		return
	}
	if n.kind != list {
		r.tear(n, path, "is "+n.what(), "a list, each item behind a dash", f.listExample())
		return
	}
	if len(n.items) > maxItems {
		r.tear(n, path, fmt.Sprintf("has %d items", len(n.items)), fmt.Sprintf("at most %d", maxItems), "")
		return
	}
	into.Set(reflect.MakeSlice(into.Type(), len(n.items), len(n.items)))
	for i, it := range n.items {
		at := join(path, n.steps[i])
		if it.value.kind != mapping {
			r.tear(it.value, at, "is "+it.value.what(), "keys: "+strings.Join(f.inner.keys(), ", "), f.listExample())
			continue
		}
		r.block(it.value, it.value, f.inner, into.Index(i), at)
	}
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// outer is the path without its last step.
func outer(path string) string {
	return path[:max(0, strings.LastIndexByte(path, '.'))]
}

// sorted puts problems in the order of the file.
func (e Errors) sorted() Errors {
	sort.SliceStable(e, func(i, j int) bool {
		if e[i].Line != e[j].Line {
			return e[i].Line < e[j].Line
		}
		return e[i].Column < e[j].Column
	})
	return e
}
