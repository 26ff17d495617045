package web

import (
	"maps"
	"net/url"
	"slices"
	"strings"

	"ampstead/finding"
	"ampstead/rig"
)

// group is one part of the file on the form: a block such as the bank, or a list.
type group struct {
	rig.Group
	ID, Title string
	Sections  []section
	Add       *addition
}

// section is one thing of the form, as the file has it.
type section struct {
	ID      string
	Path    string // in the file, such as "charge.roof solar"
	Title   string
	Solo    bool // a block of the file, which needs no heading above
	Stamp   string
	Find    string
	Open    bool // with its values
	Brief   string
	Checks  int // values that are still to be checked
	Parts   []part
	Said    []finding.Finding // findings about the thing as a whole
	Item    *item             // how it is taken out; nil when it must be there
	Adds    []addition        // what it may have more of
	fields  []field
	Focused bool // its first value is to be filled in next
}

// part is the values of a section, or of one block or item inside it.
type part struct {
	ID, Path string
	Label    string // "" for the section itself
	Item     *item
	Given    []field // what the file has, what it needs, and what something is said about
	More     []field // what may be given besides
	Unfold   bool    // with the rest open
}

// Names lists what More has.
func (p part) Names() string {
	var names []string
	for _, f := range p.More {
		names = append(names, f.Name)
	}
	return strings.Join(names, ", ")
}

// Urgent is the most urgent severity of the section's findings, or "".
func (s section) Urgent() finding.Severity {
	all := slices.Clone(s.Said)
	for _, f := range s.fields {
		all = append(all, f.Notes.Findings...)
	}
	return finding.Worst(all)
}

// groups lists the form's parts in the order of the types.
func (now *reading) groups(want sought) []group {
	form := now.form()
	b := &formBuilder{now: now, want: want, form: form, notes: now.notes()}
	b.build()
	if want.Find != "" {
		return sift(b.groups, want.Find)
	}
	return b.groups
}

// form is what can be edited in the file, listed once for each reading.
func (now *reading) form() rig.Form {
	now.formed.Do(func() { now.editable = rig.FormOf(now.file) })
	return now.editable
}

type formBuilder struct {
	now    *reading
	want   sought
	form   rig.Form
	notes  map[string]notes
	items  map[string]*item
	groups []group
}

func (b *formBuilder) build() {
	b.items = map[string]*item{}
	for _, it := range b.form.Items {
		b.items[it.Path] = newItem(it)
	}
	for _, g := range b.form.Groups {
		b.groups = append(b.groups, newGroup(g))
	}
	for _, f := range b.form.Fields {
		b.put(f)
	}
	for _, a := range b.form.Additions {
		b.offer(a)
	}
	for i := range b.groups {
		for j := range b.groups[i].Sections {
			b.finish(&b.groups[i].Sections[j])
		}
	}
}

// put lays a field into its section.
func (b *formBuilder) put(f rig.Field) {
	g := b.groupOf(f.Section)
	if n := len(g.Sections); n == 0 || g.Sections[n-1].Path != f.Section {
		g.Sections = append(g.Sections, section{ID: "s-" + elementID(f.Section), Path: f.Section, Title: plainWords(lastStep(f.Section)),
			Solo: f.Section == g.Path, Stamp: b.now.stamp, Find: b.want.Find, Item: b.items[f.Section],
			Open: b.want.opens(f.Section), Focused: b.want.New == f.Section})
	}
	last := &g.Sections[len(g.Sections)-1]
	last.fields = append(last.fields, b.now.field(f, b.notes[f.Path]))
	delete(b.notes, f.Path)
}

// groupOf is the group a path lies in; one that is in none gets its own.
func (b *formBuilder) groupOf(path string) *group {
	for i := range b.groups {
		if within(path, b.groups[i].Path) {
			return &b.groups[i]
		}
	}
	b.groups = append(b.groups, newGroup(rig.Group{Path: path}))
	return &b.groups[len(b.groups)-1]
}

func newGroup(g rig.Group) group {
	return group{Group: g, ID: "g-" + elementID(g.Path), Title: plainWords(lastStep(g.Path))}
}

// offer lays an addition where what it adds would stand.
func (b *formBuilder) offer(a rig.Addition) {
	one := newAddition(a, b.want.Add)
	g := b.groupOf(a.Path)
	if a.Section == "" {
		g.Add = &one
		return
	}
	for i := range g.Sections {
		if s := &g.Sections[i]; s.Path == a.Section {
			s.Adds = append(s.Adds, one)
		}
	}
}

// finish lays out a section when all of its fields are there.
func (b *formBuilder) finish(s *section) {
	s.gather(b.notes)
	s.Brief = briefOf(*s)
	for _, f := range s.fields {
		if f.Open {
			s.Checks++
		}
		p := s.partOf(f, b.items)
		if f.inSight() {
			p.Given = append(p.Given, f)
			continue
		}
		p.More = append(p.More, f)
		p.Unfold = p.Unfold || f.Path == b.want.At
	}
	if s.Focused && len(s.Parts) > 0 && len(s.Parts[0].Given) > 0 {
		s.Parts[0].Given[0].Focus = true
	}
	b.focusInner(s)
}

// focusInner lets the first value of an item inside the section be filled in next.
func (b *formBuilder) focusInner(s *section) {
	if s.Focused || b.want.New == "" {
		return
	}
	for i := range s.Parts {
		if p := &s.Parts[i]; within(p.Path, b.want.New) && len(p.Given) > 0 {
			p.Given[0].Focus = true
			return
		}
	}
}

// partOf is the part a field belongs to, made when it is not there yet.
func (s *section) partOf(f field, items map[string]*item) *part {
	for i := range s.Parts {
		if s.Parts[i].Path == f.Part {
			return &s.Parts[i]
		}
	}
	p := part{ID: "p-" + elementID(f.Part), Path: f.Part, Label: f.Inner}
	if f.Part != s.Path {
		p.Item = items[f.Part]
	}
	s.Parts = append(s.Parts, p)
	return &s.Parts[len(s.Parts)-1]
}

// gather takes the findings whose place lies in the section but is no field.
func (s *section) gather(left map[string]notes) {
	for _, where := range slices.Sorted(maps.Keys(left)) {
		if within(where, s.Path) {
			s.Said = append(s.Said, left[where].Findings...)
			delete(left, where)
		}
	}
}

// outerPath is a path without its last step, "" at the top.
func outerPath(path string) string { return path[:max(0, strings.LastIndexByte(path, '.'))] }

func lastStep(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// splitLabel parts "settings: float" into the inner block and the value's name.
func splitLabel(label string) (part, name string) {
	i := strings.LastIndex(label, ": ")
	if i < 0 {
		return "", label
	}
	return label[:i], label[i+2:]
}

func plainWords(key string) string { return strings.ReplaceAll(key, "_", " ") }

// fieldPaths are the paths that have a field in the form.
func (now *reading) fieldPaths() map[string]bool {
	paths := map[string]bool{}
	for _, f := range now.form().Fields {
		paths[f.Path] = true
	}
	return paths
}

// places knows where on the form a path of the file stands.
type places map[string]string

func (now *reading) places() places {
	to := places{}
	for _, g := range now.form().Groups {
		if g.List {
			to[g.Path] = "/rig#g-" + elementID(g.Path)
		}
	}
	for _, f := range now.form().Fields {
		if _, known := to[f.Section]; !known {
			to[f.Section] = placeOnForm(f.Section, "s-")
		}
		to[f.Path] = placeOnForm(f.Path, "")
	}
	return to
}

// placeOnForm is the address of a path on the form; sections have a lead to their id.
func placeOnForm(path, lead string) string {
	return "/rig?at=" + strings.ReplaceAll(url.QueryEscape(path), "+", "%20") + "#" + lead + elementID(path)
}

// link leads to the field at path, or to the part it would stand in; what the
// form has no part for is written in the text.
func (to places) link(path string) string {
	for at := path; at != ""; at = outerPath(at) {
		if link, ok := to[at]; ok {
			return link
		}
	}
	return "/rig/text"
}
