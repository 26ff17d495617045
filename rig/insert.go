package rig

import (
	"bytes"
	"strings"
)

// insert adds a key to the mapping that the target leads to.
func (f *File) insert(path string, g *target, s sprout, want map[string]string) (*File, *Problem) {
	at := g.last(f.tree.root)
	if at.kind == empty {
		return f.hang(path, g, " {"+s.inline()+"}", s.lines(f.hangIndent(g)), want)
	}
	if at.kind != mapping {
		return nil, f.byHand(path)
	}
	if len(at.entries) == 0 {
		return f.apply(path, splice{at.start + 1, at.start + 1, s.inline()}, want, false)
	}
	after := at.entries[g.before(at, s.key)].value
	if at.flow {
		return f.inline(path, after.end, s.inline(), want)
	}
	return f.below(path, after.end, at.column-1, s.lines(at.column-1), want)
}

// before finds the entry that a new key goes behind: the nearest one that comes
// earlier in the order of the type, else the last.
func (g *target) before(at *node, key string) int {
	s := rigShape
	if len(g.hops) > 0 {
		s = g.hops[len(g.hops)-1].field.inner
	}
	found := len(at.entries) - 1
	for _, f := range s.fields {
		if f.key == key {
			break
		}
		if i, e := at.entry(f.key); e != nil {
			found = i
		}
	}
	return found
}

// inline adds to a flow mapping or list behind the byte end.
func (f *File) inline(path string, end int, text string, want map[string]string) (*File, *Problem) {
	if end < 0 {
		return nil, f.byHand(path)
	}
	return f.apply(path, splice{end, end, ", " + text}, want, false)
}

// below adds lines under the line that holds the byte end.
func (f *File) below(path string, end, indent int, lines []string, want map[string]string) (*File, *Problem) {
	if end < 0 {
		return nil, f.byHand(path)
	}
	at, br := f.tree.after(end, indent), f.lineBreak()
	text := strings.Join(lines, br) + br
	if at > 0 && f.Text[at-1] != '\n' {
		text = br + strings.TrimSuffix(text, br)
	}
	return f.apply(path, splice{at, at, text}, want, false)
}

// hang fills a key that has no value yet: with lines below it, or in place when
// it lies in braces or says null.
func (f *File) hang(path string, g *target, inline string, lines []string, want map[string]string) (*File, *Problem) {
	h := g.hops[len(g.hops)-1]
	if h.in.kind != mapping || h.value().end < 0 {
		return nil, f.byHand(path)
	}
	value := h.value()
	if value.start != value.end {
		inline = strings.TrimPrefix(inline, " ")
	} else if !g.inFlow() {
		return f.below(path, value.end, h.in.column-1, lines, want)
	}
	return f.apply(path, splice{value.start, value.end, inline}, want, false)
}

func (f *File) hangIndent(g *target) int {
	return g.hops[len(g.hops)-1].in.column + 1
}

func (f *File) lineBreak() string {
	if bytes.Contains(f.Text, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

// after is the byte behind the line that holds end and behind the comment lines
// under it that are indented deeper: those belong to what ends there.
func (t *tree) after(end, indent int) int {
	at := t.places.lineEnd(end)
	for at < len(t.places.text) {
		line, _ := t.places.at(at)
		text := t.lineText(line)
		rest := bytes.TrimLeft(text, " ")
		if !bytes.HasPrefix(rest, []byte("#")) || len(text)-len(rest) <= indent {
			break
		}
		at = t.places.lineEnd(at)
	}
	return at
}
