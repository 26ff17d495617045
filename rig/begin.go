package rig

import (
	"fmt"
	"strings"
)

// begin puts a new item behind the last of a list when the path names it by the
// number it would have, such as bank.measured.groups.3.capacity where there are
// three groups; ok is false when the path does not.
func (f *File) begin(path, value string) (next *File, p *Problem, ok bool) {
	parts, err := steps(path)
	if err != nil || len(parts) < 3 || value == "" {
		return nil, nil, false
	}
	last := len(parts) - 1
	list, number, key := strings.Join(parts[:last-1], "."), parts[last-1], parts[last]
	g, p := f.aim(list)
	if p != nil || g.field.kind != blocks || number != fmt.Sprint(g.count(f.tree.root)) {
		return nil, nil, false
	}
	inner := g.field.inner.field(key)
	if inner == nil || inner.deep() {
		return nil, nil, false
	}
	next, p = f.plant(list, g, []sprout{{keys: []sprout{{key: key, value: value}}}}, atEnd)
	return next, p, true
}

// count is the number of items of the list the path leads to.
func (g *target) count(root *node) int {
	if len(g.rest) > 0 {
		return 0
	}
	return len(g.last(root).items)
}
