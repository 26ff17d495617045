package web

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/quantity"
	"ampstead/rig"
)

// section is one part of the form, as the file has it.
type section struct {
	ID     string
	Path   string // in the file, such as "charge.roof solar"
	Group  string // heading above it, when it is the first of its kind
	Title  string
	Kind   string // which list it is in, where the group has several
	Stamp  string
	Open   bool
	Fields []field
	Said   []finding.Finding // findings about the part as a whole
}

// Solo reports a part that stands alone, such as the bank: it needs no heading above.
func (s section) Solo() bool { return !strings.Contains(s.Path, ".") }

// Given counts the values the file has.
func (s section) Given() int {
	n := 0
	for _, f := range s.Fields {
		if f.Given {
			n++
		}
	}
	return n
}

// Urgent is the most urgent severity of the section's findings, or "".
func (s section) Urgent() finding.Severity {
	all := slices.Clone(s.Said)
	for _, f := range s.Fields {
		all = append(all, f.Notes.Findings...)
	}
	return finding.Worst(all)
}

// field is one labelled input.
type field struct {
	rig.Field
	ID       string
	Part     string // heading above it, when an inner block begins here
	Name     string // the label without its part
	Shown    string // in the input: what was typed, or what the file has
	Wrong    string // why it was refused
	Conflict bool   // someone else changed it meanwhile
	Notes    notes
}

// Hint is the line that says what belongs into the field.
func (f field) Hint() string {
	example := strings.ReplaceAll(f.Example, " ", "\u00a0") // keep a value and its unit together
	switch {
	case example == "" || len(f.Choices) > 0:
		return f.Doc
	case f.Doc == "":
		return "such as " + example
	}
	return f.Doc + ", such as " + example
}

// notes is what fit says about one value: findings and the recommended setting.
type notes struct {
	Path     string
	Findings []finding.Finding
	Advice   string // recommended value as it would be written; empty when it stands so
	Because  string
}

// Any reports whether there is something to say.
func (n notes) Any() bool { return len(n.Findings) > 0 || n.Advice != "" }

// sections lists the form's parts in the order of the file. One with something
// to stop for starts open.
func (now *reading) sections() []section {
	notesAt := now.notes()
	var list []section
	part := ""
	for _, f := range rig.Fields(now.file) {
		if len(list) == 0 || list[len(list)-1].Path != f.Section {
			list = append(list, newSection(f.Section, now.stamp, list))
			part = ""
		}
		last := &list[len(list)-1]
		one := field{Field: f, ID: elementID(f.Path), Shown: f.Written, Notes: notesAt[f.Path]}
		one.Notes.Path = f.Path
		inner, name := splitLabel(f.Label)
		if one.Name = name; inner != part {
			one.Part, part = inner, inner
		}
		last.Fields = append(last.Fields, one)
		delete(notesAt, f.Path)
	}
	for i := range list {
		list[i].gather(notesAt)
		list[i].Open = list[i].Urgent() == finding.Stop
	}
	return list
}

// gather takes the findings whose place lies in the section but is no field.
func (s *section) gather(left map[string]notes) {
	for _, where := range slices.Sorted(maps.Keys(left)) {
		if where == s.Path || strings.HasPrefix(where, s.Path+".") {
			s.Said = append(s.Said, left[where].Findings...)
		}
	}
}

func newSection(path, stamp string, before []section) section {
	words := strings.Split(path, ".")
	s := section{ID: "s-" + elementID(path), Path: path, Title: plainWords(words[len(words)-1]), Stamp: stamp}
	if len(words) == 3 {
		s.Kind = words[1]
	}
	if len(words) == 1 {
		return s
	}
	if len(before) == 0 || !strings.HasPrefix(before[len(before)-1].Path+".", words[0]+".") {
		s.Group = plainWords(words[0])
	}
	return s
}

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
	for _, f := range rig.Fields(now.file) {
		paths[f.Path] = true
	}
	return paths
}

// places knows where on the form a path of the file stands.
type places map[string]string

func (now *reading) places() places {
	to := places{}
	for _, s := range now.sections() {
		to[s.Path] = "/rig#" + s.ID
		for _, f := range s.Fields {
			to[f.Path] = "/rig#" + f.ID
		}
	}
	return to
}

// link leads to the field at path, or to the part it would stand in; what the
// form has no part for is written in the text.
func (to places) link(path string) string {
	for at := path; at != ""; at = at[:max(0, strings.LastIndex(at, "."))] {
		if link, ok := to[at]; ok {
			return link
		}
	}
	return "/rig/text"
}

// notes gathers by path what fit and wire found and what fit recommends.
func (now *reading) notes() map[string]notes {
	at := map[string]notes{}
	if now.result == nil {
		return at
	}
	for _, f := range now.found() {
		n := at[f.Where]
		n.Findings = append(n.Findings, f)
		at[f.Where] = n
	}
	for _, set := range now.result.Settings {
		if !set.Differs || set.Path == "" {
			continue
		}
		n := at[set.Path]
		n.Advice, n.Because = adviceText(set, writtenUnits(now.file)), set.Because
		at[set.Path] = n
	}
	return at
}

// adviceText writes a recommended setting as a person would into the file.
func adviceText(set fit.Setting, units quantity.System) string {
	switch v := set.Value.(type) {
	case string:
		return v
	case float64:
		if set.Dim != nil {
			return set.Dim.Text(v, units)
		}
		return strings.TrimSpace(fmt.Sprintf("%g %s", v, set.Unit))
	}
	return ""
}

// elementID makes an element's id of a path or title. Two of them never share
// one: what an id cannot hold is written as its number.
func elementID(path string) string {
	var out strings.Builder
	for _, c := range path {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '.', c == '-':
			out.WriteRune(c)
		case c == ' ':
			out.WriteByte('_')
		default:
			fmt.Fprintf(&out, "_%x_", c)
		}
	}
	return out.String()
}

// Options are the choices and, should the file have another word, that word.
func (f field) Options() []string {
	if f.Shown == "" || slices.Contains(f.Choices, f.Shown) {
		return f.Choices
	}
	return append(slices.Clone(f.Choices), f.Shown)
}
