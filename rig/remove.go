package rig

import (
	"bytes"
	"strings"
)

// remove takes one key out; a block left without keys goes with it.
func (f *File) remove(path string, g *target) (*File, *Problem) {
	n := len(g.hops)
	for n > 1 && len(g.hops[n-1].in.entries) == 1 && g.hops[n-2].in.kind == mapping {
		n--
	}
	h := g.hops[n-1]
	want := f.tree.flat()
	drop(want, g.path(n))
	if len(h.in.entries) == 1 && n > 1 {
		if h.in.end < 0 {
			return nil, f.byHand(path)
		}
		return f.apply(path, splice{h.in.start, h.in.end, "{}"}, want, true)
	}
	s, ok := f.cut(h)
	if !ok {
		return nil, f.byHand(path)
	}
	return f.apply(path, s, want, true)
}

// drop deletes path and all below it.
func drop(flat map[string]string, path string) {
	for k := range flat {
		if k == path || strings.HasPrefix(k, path+".") {
			delete(flat, k)
		}
	}
}

// cut is the splice that takes an entry out of its mapping.
func (f *File) cut(h hop) (splice, bool) {
	entries := h.in.entries
	e := entries[h.index]
	if e.value.end < 0 {
		return splice{}, false
	}
	if h.in.flow {
		return cutFlow(entries, h.index)
	}
	start := f.tree.places.lineStart(e.key.start)
	if blank(f.Text[start:e.key.start]) {
		return splice{start, f.tree.places.lineEnd(e.value.end), ""}, true
	}
	// The key shares its line with the dash of a list item: the next key moves up.
	if h.index+1 == len(entries) {
		return splice{}, false
	}
	next := entries[h.index+1].key.start
	between := f.Text[f.tree.places.lineEnd(e.value.end):next]
	return splice{e.key.start, next, ""}, blank(between)
}

func cutFlow(entries []entry, i int) (splice, bool) {
	e := entries[i]
	switch {
	case i+1 < len(entries):
		return splice{e.key.start, entries[i+1].key.start, ""}, true
	case i > 0:
		before := entries[i-1].value.end
		return splice{before, e.value.end, ""}, before >= 0
	}
	return splice{e.key.start, e.value.end, ""}, true
}

func blank(text []byte) bool { return len(bytes.TrimSpace(text)) == 0 }
