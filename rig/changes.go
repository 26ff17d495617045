package rig

import (
	"fmt"
	"reflect"
	"strings"

	q "ampstead/quantity"
)

// Changed is one difference between two rig files, in words.
type Changed struct {
	Path  string `json:"path"`  // in the later file; in the earlier one of what is gone
	Label string `json:"label"` // "roof solar: settings, float"
	Was   string `json:"was"`   // as written, "" when not given
	Is    string `json:"is"`
	Whole bool   `json:"whole"` // a whole device, stay or block came or went; was and is say all it holds
}

// Changes lists what differs in meaning between two rig files, in the order of the
// types, each value as it is written. Comments, the order of items and other ways
// to write the same value are no difference. Items are matched as in Diff.
func Changes(from, to *File) []Changed {
	c := &changes{}
	c.sys, _ = q.ParseSystem(to.Rig.About.Units) // anything else was refused by the reader
	c.block(rigShape, side{reflect.ValueOf(from.Rig).Elem(), from.tree.root}, side{reflect.ValueOf(to.Rig).Elem(), to.tree.root}, called{})
	return c.list
}

type changes struct {
	sys  q.System
	list []Changed
}

// side is one place in one of the two files.
type side struct {
	value reflect.Value
	node  *node // nil where the file does not give it
}

func (s side) field(f *field) side { return side{s.value.Field(f.index), s.node.get(f.key)} }

// called is where the walk is, in the words of a path and of a person.
type called struct {
	path   string
	head   string   // the part of the rig: bank, or a device's name
	labels []string // what lies within it
}

func (at called) key(key string) called {
	return called{join(at.path, key), at.head, at.within(plainWords(key))}.headed(key)
}

func (at called) within(label string) []string {
	return append(at.labels[:len(at.labels):len(at.labels)], label)
}

// headed lets a block of the file be a head of its own.
func (at called) headed(key string) called {
	if at.head == "" {
		return called{at.path, plainWords(key), nil}
	}
	return at
}

// item is one of the list that at leads to. A device has its name for a head;
// what lies in a device is called after its list.
func (at called) item(n *node, i int) called {
	name := n.items[i].value.name()
	within := fmt.Sprintf("%s %d", last(at), i+1)
	if name != "" {
		within = last(at) + ", " + name
	}
	inner := called{join(at.path, n.steps[i]), at.head, nil}
	switch {
	case len(at.labels) == 0 || at.head == "protection":
		inner.head = within
		if name != "" {
			inner.head = name
		}
	default:
		inner.labels = append(at.labels[:len(at.labels)-1:len(at.labels)-1], within)
	}
	return inner
}

// last is the key that the place ends with, in words.
func last(at called) string {
	if len(at.labels) == 0 {
		return at.head
	}
	return at.labels[len(at.labels)-1]
}

func (at called) text() string {
	if len(at.labels) == 0 {
		return at.head
	}
	return at.head + ": " + strings.Join(at.labels, ", ")
}

func (c *changes) block(s *shape, a, b side, at called) {
	for i := range s.fields {
		f := &s.fields[i]
		was, is, here := a.field(f), b.field(f), at.key(f.key)
		switch f.kind {
		case block:
			c.inner(f, was, is, here)
		case blocks:
			c.items(f.inner, was, is, here)
		default:
			if f.write(was.value, c.sys) != f.write(is.value, c.sys) {
				c.list = append(c.list, Changed{Path: here.path, Label: here.text(), Was: was.node.plain(), Is: is.node.plain()})
			}
		}
	}
}

func (c *changes) inner(f *field, a, b side, at called) {
	switch {
	case !f.pointer:
		c.block(f.inner, a, b, at)
	case a.value.IsNil() && b.value.IsNil():
	case a.value.IsNil() || b.value.IsNil():
		c.whole(at, a.node, b.node)
	default:
		c.block(f.inner, side{a.value.Elem(), a.node}, side{b.value.Elem(), b.node}, at)
	}
}

// items compares lists: those that go, then those that stay and those that come.
func (c *changes) items(s *shape, a, b side, at called) {
	old, now := stepsOf(s, a.value, b.value), stepsOf(s, b.value, a.value)
	for i := range old {
		if stepAt(now, old[i]) < 0 {
			c.whole(at.item(a.node, i), a.node.items[i].value, nil)
		}
	}
	for k := range now {
		here, is := at.item(b.node, k), b.node.items[k].value
		i := stepAt(old, now[k])
		if i < 0 {
			c.whole(here, nil, is)
			continue
		}
		c.block(s, side{a.value.Index(i), a.node.items[i].value}, side{b.value.Index(k), is}, here)
	}
}

func (c *changes) whole(at called, a, b *node) {
	if a.plain() != b.plain() {
		c.list = append(c.list, Changed{Path: at.path, Label: at.text(), Was: a.nameless(), Is: b.nameless(), Whole: true})
	}
}

// nameless is plain without the name, which stands in the label.
func (n *node) nameless() string {
	if n == nil || n.kind != mapping {
		return n.plain()
	}
	rest := *n
	rest.entries = nil
	for _, e := range n.entries {
		if e.key.text != "name" {
			rest.entries = append(rest.entries, e)
		}
	}
	return rest.plain()
}

// plain writes all that a node holds on one line, "" for one that is not there.
func (n *node) plain() string {
	if n == nil || n.kind == empty {
		return ""
	}
	if n.kind == scalar {
		return strings.Join(strings.Fields(n.text), " ")
	}
	var parts []string
	for _, e := range n.entries {
		text := e.value.plain()
		if e.value.kind == mapping || e.value.kind == list {
			text = "(" + text + ")"
		}
		parts = append(parts, strings.TrimSpace(plainWords(e.key.text)+" "+text))
	}
	for _, it := range n.items {
		parts = append(parts, it.value.plain())
	}
	if n.kind == list {
		return strings.Join(parts, "; ")
	}
	return strings.Join(parts, ", ")
}
