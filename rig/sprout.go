package rig

import (
	"fmt"
	"strings"
)

// sprout is a piece of YAML to be added: a key with a value, or with keys or
// items below it.
type sprout struct {
	key   string
	value string   // when it has nothing below
	keys  []sprout // a mapping
	items []sprout // a list; each item has keys only
	flow  bool     // in braces or brackets on one line
}

// chain wraps a sprout in the keys that the file does not have yet.
func (g *target) chain(s sprout) sprout {
	last := len(g.rest) - 1
	s.key = g.rest[last]
	for i := last - 1; i >= 0; i-- {
		s = sprout{key: g.rest[i], keys: []sprout{s}}
	}
	return s
}

// fill writes what the sprout adds below path into a flat tree.
func (s sprout) fill(path string, want map[string]string) {
	want[path] = blockMark
	path = join(path, s.key)
	switch {
	case s.keys != nil:
		want[path] = blockMark
		for _, k := range s.keys {
			k.fill(path, want)
		}
	case s.items != nil:
		want[path] = listMark
		for i, it := range s.items {
			it.fillItem(join(path, fmt.Sprint(i)), want)
		}
	default:
		want[path] = s.value
	}
}

func (s sprout) fillItem(path string, want map[string]string) {
	want[path] = blockMark
	for _, k := range s.keys {
		k.fill(path, want)
	}
}

// lines writes the sprout one key a line, behind indent spaces.
func (s sprout) lines(indent int) []string {
	start := strings.Repeat(" ", indent) + s.key + ":"
	switch {
	case s.keys == nil && s.items == nil:
		return []string{start + " " + written(s.value, plain, false)}
	case s.flow:
		return []string{strings.Repeat(" ", indent) + s.inline()}
	}
	all := []string{start}
	for _, k := range s.keys {
		all = append(all, k.lines(indent+2)...)
	}
	for _, it := range s.items {
		all = append(all, it.itemLines(indent+2)...)
	}
	return all
}

// itemLines writes the keys of a list item behind a dash at indent.
func (s sprout) itemLines(indent int) []string {
	if s.flow {
		return []string{strings.Repeat(" ", indent) + "- " + braces(s.keys)}
	}
	var all []string
	for _, k := range s.keys {
		all = append(all, k.lines(indent+2)...)
	}
	all[0] = strings.Repeat(" ", indent) + "- " + all[0][indent+2:]
	return all
}

// inline writes the sprout in braces and brackets.
func (s sprout) inline() string {
	switch {
	case s.keys != nil:
		return s.key + ": " + braces(s.keys)
	case s.items != nil:
		var parts []string
		for _, it := range s.items {
			parts = append(parts, braces(it.keys))
		}
		return s.key + ": [" + strings.Join(parts, ", ") + "]"
	}
	return s.key + ": " + written(s.value, plain, true)
}

func braces(keys []sprout) string {
	var parts []string
	for _, k := range keys {
		parts = append(parts, k.inline())
	}
	return "{" + strings.Join(parts, ", ") + "}"
}
