package rig

// spot is one key of the file that the types know: where, what it may be, and
// what stands there.
type spot struct {
	path  string
	field *field
	owner *field // the block or list it belongs to; nil at the top
	key   *node
	value *node
}

// visit calls fn for every known key that is there, outer before inner.
func (f *File) visit(fn func(spot)) {
	visitBlock(f.tree.root, rigShape, nil, "", fn)
}

func visitBlock(n *node, s *shape, owner *field, path string, fn func(spot)) {
	if n == nil || n.kind != mapping {
		return
	}
	for _, e := range n.entries {
		inner := s.field(e.key.text)
		if inner == nil {
			continue
		}
		at := spot{join(path, e.key.text), inner, owner, e.key, e.value}
		fn(at)
		visitInner(at, fn)
	}
}

func visitInner(at spot, fn func(spot)) {
	switch {
	case at.field.kind == block:
		visitBlock(at.value, at.field.inner, at.field, at.path, fn)
	case at.field.kind == blocks && at.value.kind == list:
		for i, it := range at.value.items {
			visitBlock(it.value, at.field.inner, at.field, join(at.path, at.value.steps[i]), fn)
		}
	}
}

// thing is something in the rig that other parts can name.
type thing struct {
	list string // the key it stands under: charge, cables, heater ...
	name string
	at   spot
}

// unnamed are the lists whose items nothing else names.
var unnamed = map[string]bool{"route": true, "panels": true, "about": true}

// things lists everything that can be named, in the order of the file.
func (f *File) things() []thing {
	var all []thing
	f.visit(func(at spot) {
		if at.field.key == "name" && at.owner != nil && !unnamed[at.owner.key] && at.value.kind == scalar {
			all = append(all, thing{at.owner.key, at.value.text, at})
		}
	})
	return all
}

// namesFor lists what a field with a names tag may say in this file.
func (f *field) namesFor(things []thing) []string {
	var may []string
	for _, word := range f.names {
		if word[0] != '@' {
			may = append(may, word)
			continue
		}
		for _, t := range things {
			if t.list == word[1:] || word == "@devices" && t.list != "cables" && t.list != "candidates" {
				may = append(may, t.name)
			}
		}
	}
	return may
}
