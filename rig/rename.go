package rig

// Rename returns a new file in which the thing at path, such as
// "charge.roof solar", has another name, also wherever the file names it.
// The error is Errors when the path or the new name is not valid.
func (f *File) Rename(path, name string) (*File, error) {
	path = join(path, "name")
	g, p := f.aim(path)
	if p != nil {
		return nil, Errors{p}
	}
	changes := []Change{{path, name}}
	old := g.last(f.tree.root)
	for _, t := range f.things() {
		if t.at.value == old {
			changes = append(f.mentions(t, name), changes...)
		}
	}
	return f.SetAll(changes...)
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
