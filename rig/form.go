package rig

import (
	"fmt"
	"strings"
)

// Field is one value of the rig as a form shows it, given in the file or not.
type Field struct {
	Path    string // for Set
	Section string // such as "bank" or "charge.roof solar"; fields of one section stand together
	Label   string // plain words, with the inner block in front: "settings: float"
	Doc     string
	Example string
	Written string   // as in the file, "" when not given
	Given   bool     // the key is in the file
	Need    bool     // it must be given
	Choices []string // the words that may stand here; nil when any may
	Kind    string   // "voltage", "text", "whole number", "yes or no", "date" ...
	Off     bool     // may also say off
}

// Fields lists every value of every object in the file, in the order of the
// types, whether given or not, except keys of another kind of device. Blocks of which nothing must be given, such as
// bank.measured, are listed too when they are not in the file.
func Fields(f *File) []Field {
	m := &former{things: f.things()}
	m.block(f.tree.root, rigShape, spotOnForm{})
	return m.fields
}

type former struct {
	things []thing
	fields []Field
}

// spotOnForm is where the walk through the types is.
type spotOnForm struct {
	path, section string
	labels        []string // inner blocks passed within the section
}

func (s spotOnForm) key(key string) spotOnForm {
	s.path = join(s.path, key)
	if s.section == "" {
		s.section = key
		return s
	}
	s.labels = append(s.labels[:len(s.labels):len(s.labels)], plainWords(key))
	return s
}

func (m *former) block(n *node, s *shape, at spotOnForm) {
	for i := range s.fields {
		f := &s.fields[i]
		here := n.get(f.key)
		switch {
		case here == nil && f.only != "" && !n.isKind(f.only):
		case f.kind == blocks:
			m.items(here, f, at)
		case f.kind == block && (here != nil || f.inner.free()):
			m.block(here, f.inner, at.key(f.key))
		case !f.deep():
			m.fields = append(m.fields, m.field(here, f, at))
		}
	}
}

// items gives each device a section of its own; items inside a device, such as
// panels, stay in the device's section.
func (m *former) items(n *node, f *field, at spotOnForm) {
	if n == nil || n.kind != list {
		return
	}
	for i, it := range n.items {
		step := n.steps[i]
		inner := spotOnForm{path: join(join(at.path, f.key), step)}
		if at.section == "" || at.section == "protection" {
			inner.section = inner.path
		} else {
			inner.section = at.section
			inner.labels = append(at.labels[:len(at.labels):len(at.labels)], itemLabel(f.key, step, i))
		}
		m.block(it.value, f.inner, inner)
	}
}

func itemLabel(key, step string, i int) string {
	if step == fmt.Sprint(i) {
		return fmt.Sprintf("%s %d", plainWords(key), i+1)
	}
	return plainWords(key) + ", " + step
}

// isKind reports whether the kind beside a key is the one it belongs to.
func (n *node) isKind(only string) bool {
	kind := n.get("kind")
	return kind != nil && kind.text == only
}

// free reports whether a block may be there with any one of its keys.
func (s *shape) free() bool {
	for _, f := range s.fields {
		if f.need {
			return false
		}
	}
	return true
}

func (m *former) field(n *node, f *field, at spotOnForm) Field {
	one := Field{Path: join(at.path, f.key), Section: at.section, Doc: f.doc, Example: f.example(),
		Label: strings.Join(append(at.labels[:len(at.labels):len(at.labels)], plainWords(f.key)), ": "),
		Given: n != nil, Need: f.need, Kind: f.what(), Choices: f.choices(m.things), Off: f.kind == setting}
	if n != nil {
		one.Written = n.text
	}
	return one
}

func (f *field) choices(things []thing) []string {
	switch {
	case f.kind == yesNo:
		return []string{"yes", "no"}
	case f.names != nil:
		return f.namesFor(things)
	}
	return f.oneof
}

// plainWords turns a key into words.
func plainWords(key string) string { return strings.ReplaceAll(key, "_", " ") }

// what names the kind of value.
func (f *field) what() string {
	switch f.kind {
	case whole:
		return "whole number"
	case yesNo:
		return "yes or no"
	case amount, setting:
		return f.dim.Name
	case size:
		return "conductor size"
	case money:
		return "amount of money"
	case day:
		return "date"
	}
	if f.oneof != nil {
		return "word"
	}
	if f.names != nil {
		return "name"
	}
	return "text"
}
