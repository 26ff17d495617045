package rig

import "fmt"

// target is what a path leads to: how far the file goes along it and what the
// types say about the rest.
type target struct {
	hops  []hop // what was passed, outermost first
	rest  []string
	field *field // of the last step; of the list when the last step is an item
	item  bool   // the last step is an item of a list
}

// hop is one step taken inside a mapping or a list.
type hop struct {
	in    *node
	shape *shape // of in, when it is a mapping
	field *field // of the step, or of the list
	index int    // of the entry or item
}

// value is what the hop leads to.
func (h hop) value() *node {
	if h.in.kind == list {
		return h.in.items[h.index].value
	}
	return h.in.entries[h.index].value
}

// last is the value the path leads to as far as the file goes.
func (g *target) last(root *node) *node {
	if len(g.hops) == 0 {
		return root
	}
	return g.hops[len(g.hops)-1].value()
}

// inFlow reports whether the place lies inside braces or brackets.
func (g *target) inFlow() bool {
	for _, h := range g.hops {
		if h.in.flow {
			return true
		}
	}
	return false
}

// path writes the first n hops with numbers for items, as flat does.
func (g *target) path(n int) string {
	path := ""
	for _, h := range g.hops[:n] {
		if h.in.kind == list {
			path = join(path, fmt.Sprint(h.index))
		} else {
			path = join(path, h.in.entries[h.index].key.text)
		}
	}
	return path
}

// full is path of all hops and the rest.
func (g *target) full() string {
	path := g.path(len(g.hops))
	for _, step := range g.rest {
		path = join(path, step)
	}
	return path
}

// aim follows a path through the types and, as far as it goes, the file.
func (f *File) aim(path string) (*target, *Problem) {
	parts, err := steps(path)
	if err != nil {
		return nil, f.Problem("", err.Error(), "", "")
	}
	g := &target{}
	here, s := f.tree.root, rigShape
	for i := 0; i < len(parts); i++ {
		g.field, g.item = s.field(parts[i]), false
		if g.field == nil {
			message, expected := noKey(parts[i], s)
			return nil, f.Problem(path, message, expected, "")
		}
		here = g.take(here, s, parts[i])
		s = g.field.inner
		if s == nil && i < len(parts)-1 {
			return nil, f.Problem(path, fmt.Sprintf("%s has no keys below it", parts[i]), g.field.expected(), g.field.example())
		}
		if g.field.kind == blocks && i < len(parts)-1 {
			i++
			in := here
			if here = g.pick(in, parts[i]); here == nil {
				return nil, f.noItem(path, parts[i-1], parts[i], in)
			}
		}
	}
	return g, nil
}

// take goes one key further, in the file if it is there, else in the rest.
func (g *target) take(here *node, s *shape, key string) *node {
	if i, e := here.entry(key); e != nil && len(g.rest) == 0 {
		g.hops = append(g.hops, hop{here, s, g.field, i})
		return e.value
	}
	g.rest = append(g.rest, key)
	return nil
}

// pick goes to an item of a list, nil when it is not there.
func (g *target) pick(here *node, step string) *node {
	if here == nil || here.kind != list {
		return nil
	}
	i := here.find(step)
	if i < 0 {
		return nil
	}
	g.item = true
	g.hops = append(g.hops, hop{in: here, field: g.field, index: i})
	return here.items[i].value
}

// noKey says that the shape has no such key, with the one that may be meant.
func noKey(key string, s *shape) (message, expected string) {
	message = fmt.Sprintf("there is no key %q here", key)
	if near := nearest(key, s.keys()); near != "" {
		message += fmt.Sprintf(", did you mean %q?", near)
	}
	return message, oneOf(s.keys())
}

func (f *File) noItem(path, list, step string, in *node) *Problem {
	if in == nil || len(in.steps) == 0 {
		return f.Problem(path, fmt.Sprintf("there is no %s in this file", list), "", "")
	}
	return f.Problem(path, fmt.Sprintf("nothing named %q is there in %s", step, list), oneOf(in.steps), "")
}
