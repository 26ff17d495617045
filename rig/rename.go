package rig

import "strings"

// Rename returns a new file in which the thing at path, such as
// "charge.roof solar", has another name, also wherever the file names it.
// The error is Errors when the path or the new name is not valid.
func (f *File) Rename(path, name string) (*File, error) {
	path = join(path, "name")
	if _, p := f.aim(path); p != nil {
		return nil, Errors{p}
	}
	return f.SetAll(f.following(path, name)...)
}

// following is the change of a name with the changes that let every reference to
// what it names follow; of any other value the change alone.
func (f *File) following(path, value string) []Change {
	changes := []Change{{path, value}}
	g, p := f.aim(path)
	if p != nil || len(g.rest) > 0 || g.field.key != "name" || strings.TrimSpace(value) == "" {
		return changes
	}
	old := g.last(f.tree.root)
	for _, t := range f.things() {
		if t.at.value == old {
			changes = append(f.mentions(t, value), changes...)
		}
	}
	return changes
}

// mentions are the changes that let every reference to a thing follow its name.
func (f *File) mentions(t thing, name string) []Change {
	var changes []Change
	f.visit(func(at spot) {
		if at.field.names != nil && at.value.text == t.name && contains(at.field.namesFor([]thing{t}), t.name) {
			changes = append(changes, Change{at.path, name})
		}
	})
	return changes
}

// Edit is SetAll as a person at a form means it: where a thing gets another name,
// what names it follows; a cell that is now own gets its block; and a value that
// was changed is no longer marked as to be checked.
func (f *File) Edit(changes ...Change) (*File, error) {
	var names []Change
	g := f
	for _, c := range changes {
		if strings.HasSuffix(c.Path, ".name") {
			names = append(names, c)
			continue
		}
		next, p := g.edit(c)
		if p != nil {
			return nil, Errors{p}
		}
		g = next
	}
	for _, c := range names {
		for _, c := range g.following(c.Path, strings.TrimSpace(c.Value)) {
			next, p := g.edit(c)
			if p != nil {
				return nil, Errors{p}
			}
			g = next
		}
	}
	return g.whole(f)
}

func (f *File) edit(c Change) (*File, *Problem) {
	value := strings.TrimSpace(c.Value)
	own := join(outer(c.Path), "own")
	if g, p := f.aim(own); p == nil && len(g.rest) > 0 && value == OwnCellName && g.field.inner != nil &&
		g.field.inner.title == ownShape && c.Path == join(outer(c.Path), "cell") {
		next, _, _, p := f.addOwn(own, nil)
		return next, p
	}
	next, p := f.change(c.Path, value)
	if p != nil {
		return nil, p
	}
	return next.unmark(c.Path), nil
}
