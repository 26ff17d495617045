package picture

import (
	"slices"
	"strings"

	"ampstead/finding"
)

// mark writes on every part of the diagram which rules it breaks.
func (g *grower) mark() {
	for _, f := range g.res.Findings {
		if f.Severity == finding.Note {
			continue
		}
		if list := g.tree.marked(f); list != nil {
			g.tree.broken = true
			if !slices.Contains(*list, g.word(f)) {
				*list = append(*list, g.word(f))
			}
		}
	}
}

// marked finds the part whose place in the rig file the finding names most
// closely; nil when it names none.
func (t *tree) marked(f finding.Finding) *[]string {
	var best *[]string
	longest := 0
	try := func(path string, list *[]string) {
		if path != "" && len(path) > longest && within(f.Where, path) {
			best, longest = list, len(path)
		}
	}
	for _, l := range t.all {
		try(l.node.Path, &l.nodeSays)
		if l.run != nil {
			try(l.run.Path, &l.cableSays)
		}
		if l.fuse != nil {
			try(l.fuse.Path, &l.fuseSays)
		}
		if l.contact != nil {
			try(l.contact.Path, &l.switchSays)
		}
	}
	if best == nil {
		best = t.lacking(f.ID)
	}
	return best
}

// lacking is the run in which something is missing that has no place in the file.
func (t *tree) lacking(id string) *[]string {
	switch {
	case id == "no-string-fuse" && t.strings != nil:
		return &t.strings.fuseSays
	case id == "no-main-fuse" && t.root != nil && len(t.root.limbs) > 0:
		return &t.root.limbs[0].fuseSays
	}
	return nil
}

func within(where, path string) bool { return where == path || strings.HasPrefix(where, path+".") }

// word is the rule in words; a cable that is too small says what it takes.
func (g *grower) word(f finding.Finding) string {
	text := strings.ReplaceAll(strings.ReplaceAll(f.ID, "-", " "), "pre charge", "pre-charge")
	if f.ID != "cable-too-small" {
		return text
	}
	for _, c := range g.res.Circuits {
		if c.Path != "" && within(f.Where, c.Path) && c.SmallestSize != "" {
			text += ": " + c.SmallestSize + " needed"
		}
	}
	return text
}
