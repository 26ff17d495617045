package rig

import (
	"fmt"
	"strings"

	q "ampstead/quantity"
)

// Field is one value of the rig as a form shows it, given in the file or not.
type Field struct {
	Path    string // for Set
	Section string // such as "bank" or "charge.roof solar"; fields of one section stand together
	Part    string // path of the block or item within the section it belongs to, else the section
	Label   string // plain words, with the inner block in front: "settings: float"
	Doc     string
	Where   string // where it is to be read, "" when that is not said
	Example string
	Written string   // as in the file, "" when not given
	Remark  string   // the comment behind it in the file
	Given   bool     // the key is in the file
	Open    bool     // its comment says that it is still to be checked
	Need    bool     // it must be given
	Choices []string // the words that may stand here; nil when any may
	Kind    string   // "voltage", "text", "whole number", "yes or no", "date" ...
	Off     bool     // may also say off

	Dimension *q.Dimension // of a quantity; nil for anything else
}

// Addition is something that can be added to the file: one more item of a list, or
// a block that is not there.
type Addition struct {
	Path    string // for Add
	Section string // that it belongs to, as a Field's; "" for what is a section itself
	One     string // what one is called: "charger"
	Doc     string
	List    bool
	Key     string   // the key whose word is chosen at once; "" for none
	Choices []string // the words
	Named   bool     // it has a name that must be given
	Lacks   string   // why none can be added yet; "" when one can
}

// Item is something in the file that can be taken out or copied: an item of a
// list, a block that need not be there, or a list that only makes sense whole.
type Item struct {
	Path    string // for Remove and Copy
	Section string
	One     string   // "charger"
	Copies  bool     // one more like it makes sense
	With    []string // paths of the cables and fuses that are there for it alone
	HeldBy  []string // paths of the values that name it or one of those: it cannot go
}

// Group is one part of a file: a block such as the bank, or a list of things.
type Group struct {
	Path string // "bank", "charge", "protection.fuses"
	Doc  string
	List bool
}

// Form is everything that can be edited in a file.
type Form struct {
	Groups    []Group
	Fields    []Field
	Additions []Addition
	Items     []Item
}

// FormOf lists what a form offers, each in the order of the types: every value of
// every object in the file, whether given or not, except keys of another kind of
// device. Blocks of which nothing must be given, such as bank.measured, are listed
// too when they are not in the file.
func FormOf(f *File) Form {
	things := f.things()
	m := &former{file: f, things: things, refs: f.references(things)}
	m.block(f.tree.root, rigShape, spotOnForm{})
	return m.Form
}

// Fields lists every value of a FormOf.
func Fields(f *File) []Field {
	m := &former{file: f, things: f.things()}
	m.block(f.tree.root, rigShape, spotOnForm{})
	return m.Fields
}

type former struct {
	Form
	file   *File
	things []thing
	refs   []reference
}

// spotOnForm is where the walk through the types is.
type spotOnForm struct {
	path, section, part string
	labels              []string // inner blocks passed within the section
}

// protectionKey is the block that only holds lists of devices.
const protectionKey = "protection"

// groups reports whether what stands here is a group: the top of the file, and the
// lists of protection.
func (s spotOnForm) groups() bool { return s.section == "" || s.section == protectionKey }

func (s spotOnForm) key(key string) spotOnForm {
	s.path = join(s.path, key)
	s.part = s.path
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
		if at.groups() && f.key != protectionKey {
			m.Groups = append(m.Groups, Group{join(at.path, f.key), f.doc, f.kind == blocks})
		}
		switch {
		case here == nil && f.only != "" && !n.isKind(f.only):
		case f.kind == blocks:
			m.items(here, f, at)
		case f.kind == block && (here != nil && here.kind != empty || f.inner.free()):
			m.inner(here, f, at)
		case f.kind == block:
			m.addition(here, f, at)
		default:
			m.Fields = append(m.Fields, m.field(here, s, f, at))
		}
	}
}

// inner is a block that is in the file or could be with any one of its keys.
func (m *former) inner(n *node, f *field, at spotOnForm) {
	if n != nil && f.pointer {
		m.item(join(at.path, f.key), f, at)
	}
	m.block(n, f.inner, at.key(f.key))
}

// items gives each device a section of its own; items inside a device, such as
// panels, stay in the device's section.
func (m *former) items(n *node, f *field, at spotOnForm) {
	m.addition(n, f, at)
	if n == nil || n.kind != list {
		return
	}
	if f.inner.title == readingShape || f.inner.title == pointShape {
		m.item(join(at.path, f.key), f, at)
	}
	for i, it := range n.items {
		step := n.steps[i]
		inner := spotOnForm{path: join(join(at.path, f.key), step)}
		inner.part = inner.path
		if at.groups() {
			inner.section = inner.path
		} else {
			inner.section = at.section
			inner.labels = append(at.labels[:len(at.labels):len(at.labels)], itemLabel(f.key, step, i))
		}
		if f.inner.title != readingShape {
			m.item(inner.path, f, inner)
		}
		m.block(it.value, f.inner, inner)
	}
}

func (m *former) item(path string, f *field, at spotOnForm) {
	one := Item{Path: path, Section: at.section, One: f.one, Copies: f.copies()}
	if at.section == "" {
		one.Section = path
	}
	one.With, one.HeldBy = m.file.dependants(path, m.refs)
	m.Items = append(m.Items, one)
}

// addition offers one more item of a list, or a block.
func (m *former) addition(n *node, f *field, at spotOnForm) {
	full := f.inner.title == readingShape && n != nil && len(n.items) > 0
	if full || n != nil && len(n.items) >= maxItems {
		return
	}
	one := Addition{Path: join(at.path, f.key), Section: at.section, One: f.one, Doc: f.doc, List: f.kind == blocks}
	if at.groups() {
		one.Section = ""
	}
	for i := range f.inner.fields {
		key := &f.inner.fields[i]
		switch {
		case key.key == "name" && key.need:
			one.Named = true
		case key.need && key.oneof != nil && one.Key == "":
			one.Key, one.Choices = key.key, key.oneof
		case key.need && key.names != nil && len(key.namesFor(m.things)) == 0:
			one.Lacks = key.doc + "; there is none in the file yet"
		}
	}
	m.Additions = append(m.Additions, one)
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

func (m *former) field(n *node, s *shape, f *field, at spotOnForm) Field {
	one := Field{Path: join(at.path, f.key), Section: at.section, Part: at.part, Doc: f.doc, Dimension: f.dim, Where: wheres[s.title+"."+f.key], Example: f.example(),
		Label: strings.Join(append(at.labels[:len(at.labels):len(at.labels)], plainWords(f.key)), ": "),
		Given: n != nil, Need: f.need, Kind: f.what(), Choices: f.choices(m.things), Off: f.kind == setting}
	if n != nil {
		one.Written = n.text
		one.Remark, _, _ = m.file.tree.remark(n)
		one.Open = open(one.Remark)
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
