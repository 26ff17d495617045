package rig

import (
	"slices"
	"strings"
)

// Remove returns a new file without the list items at paths, such as
// "charge.roof solar", whole lists, or blocks, such as "heater"; only the end must
// be valid: a charger goes together with its cable. A cell described in the file
// leaves the library cell it was like behind. The error is Errors when something
// else in the file still names what goes.
func (f *File) Remove(paths ...string) (*File, error) {
	g := f
	for _, path := range f.lastFirst(paths) {
		next, p := g.takeOut(path)
		if p != nil {
			return nil, Errors{p}
		}
		g = next
	}
	return g.whole(f)
}

// lastFirst sorts paths by where they stand, so that numbers of items hold.
func (f *File) lastFirst(paths []string) []string {
	sorted := slices.Clone(paths)
	place := func(path string) int {
		if n := f.tree.at(path); n != nil {
			return n.start
		}
		return -1
	}
	slices.SortStableFunc(sorted, func(a, b string) int { return place(b) - place(a) })
	return sorted
}

func (f *File) takeOut(path string) (*File, *Problem) {
	g, p := f.aim(path)
	switch {
	case p != nil:
		return nil, p
	case len(g.rest) > 0:
		return f, nil
	case !g.item && !g.field.deep():
		return nil, f.Problem(path, "only an item of a list, a list or a block can be removed", "", "charge.roof solar")
	}
	like := ""
	if g.field.inner.title == ownShape {
		like = f.textAt(join(path, "like"))
	}
	next, p := f.uproot(path, g)
	if p != nil || like == "" {
		return next, p
	}
	return next.change(join(outer(path), "cell"), like)
}

// textAt is what stands at path, "" when there is no single value.
func (f *File) textAt(path string) string {
	if n := f.tree.at(path); n != nil && n.kind == scalar {
		return n.text
	}
	return ""
}

// dependants tells what follows when the item or block at path goes: the cables
// and fuses that go with it because they are there for it alone, and the values
// that hold it back because they name it or one of those.
func (f *File) dependants(path string, refs []reference) (with, heldBy []string) {
	gone := []string{path}
	for i := 0; i < len(gone); i++ {
		for _, r := range refs {
			if !inside(r.to, gone[i]) || slices.ContainsFunc(gone, func(g string) bool { return inside(r.at, g) }) {
				continue
			}
			if goesAlong(r.at) {
				gone = append(gone, outer(r.at))
			} else if !slices.Contains(heldBy, r.at) {
				heldBy = append(heldBy, r.at)
			}
		}
	}
	return gone[1:], heldBy
}

// goesAlong reports whether what a reference belongs to is there for what it names.
func goesAlong(at string) bool {
	return strings.HasPrefix(at, "cables.") || strings.HasPrefix(at, "protection.fuses.")
}

func inside(path, outer string) bool { return path == outer || strings.HasPrefix(path, outer+".") }

// reference is a value that names a thing.
type reference struct {
	at string // path of the value
	to string // path of the thing
}

// references lists every value of the file that names a thing in it.
func (f *File) references(things []thing) []reference {
	byName := map[string][]thing{}
	for _, t := range things {
		byName[t.name] = append(byName[t.name], t)
	}
	var all []reference
	f.visit(func(at spot) {
		if at.field.names == nil || at.value.kind != scalar {
			return
		}
		for _, t := range byName[at.value.text] {
			if contains(at.field.namesFor([]thing{t}), t.name) {
				all = append(all, reference{at.path, outer(t.at.path)})
			}
		}
	})
	return all
}
