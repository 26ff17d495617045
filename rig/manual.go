package rig

import (
	"fmt"
	"strings"
)

// manual is the sentence that the manual and the schema say about a key.
func (f *field) manual() string {
	text := f.doc
	if f.only != "" {
		text += "; kind " + f.only + " only"
	}
	if between := f.between(); between != "" {
		text += ";" + between
	}
	return text
}

// Manual is the page about every key of the rig file, in Markdown, made from
// the types.
func Manual() []byte {
	m := &manualPage{done: map[string]bool{}}
	m.WriteString(manualStart)
	m.block("The whole file", "", rigShape)
	return []byte(m.String())
}

const manualStart = `# The rig file

Made from the types in package rig; ` + "`go test ./rig -update`" + ` writes it anew.

` + "`rig.yaml`" + ` holds one rig. It is written in YAML: a key, a colon, a value; what
belongs together is indented by two spaces; each item of a list stands behind a
dash. ` + "`#`" + ` starts a comment, which is kept when the file is edited by the program.

- A quantity is a number with its unit: ` + "`94 Ah`, `5.2 kWh`, `25 °F`, `-3 mV/K`, `2/0 AWG`" + `.
  Decimals have a point.
- A setting may also say ` + "`off` or `none`" + `. A setting that is not in the file is
  one that is not known, which is not the same.
- A name may hold letters, digits and spaces, but no dot and no bracket. It is
  how other parts of the file, and ` + "`--set`" + `, refer to the thing:
  ` + "`--set \"charge.roof solar.settings.float=none\"`" + `.
- Anchors, tags and a second document are not used. The file has at most 1 MB.

Keys marked * must be given.
`

type manualPage struct {
	strings.Builder
	done map[string]bool
}

func (m *manualPage) block(title, path string, s *shape) {
	if m.done[title] {
		return
	}
	m.done[title] = true
	fmt.Fprintf(m, "\n## %s\n\n| key | what | how it is written | example |\n|---|---|---|---|\n", title)
	for i := range s.fields {
		m.row(&s.fields[i])
	}
	for i := range s.fields {
		if f := &s.fields[i]; f.deep() {
			at := join(path, f.key)
			if f.kind == blocks {
				m.block("`"+at+"`, each item", at, f.inner)
			} else {
				m.block("`"+at+"`", at, f.inner)
			}
		}
	}
}

func (m *manualPage) row(f *field) {
	key := "`" + f.key + "`"
	if f.need {
		key += " *"
	}
	example := ""
	if !f.deep() && f.example() != "" {
		example = "`" + f.key + ": " + f.example() + "`"
	}
	fmt.Fprintf(m, "| %s | %s | %s | %s |\n", key, f.manual(), f.form(), example)
}

// form says how the value is written.
func (f *field) form() string {
	switch {
	case f.kind == block:
		return "keys, below"
	case f.kind == blocks:
		return "list, below"
	case f.names != nil:
		return "a name: " + nameForms(f.names)
	case f.kind == word && f.oneof == nil:
		return "text"
	}
	return f.expected()
}

func nameForms(names []string) string {
	var all []string
	for _, n := range names {
		list, isList := strings.CutPrefix(n, "@")
		switch {
		case n == "@devices":
			n = "of any device"
		case isList:
			n = "of " + list
		}
		all = append(all, n)
	}
	return either(all)
}
