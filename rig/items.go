package rig

import (
	"fmt"
	"strings"
)

// AddItem returns a new file with one more item in the list at path, such as
// "charge" or "protection.fuses", or with the block at path, such as "heater".
// Keys that must be there and are not in values get their examples. The error
// is Errors when the path, a value or the file that would result is not valid.
func (f *File) AddItem(path string, values map[string]string) (*File, error) {
	g, p := f.aim(path)
	if p != nil {
		return nil, Errors{p}
	}
	if !g.field.deep() || g.item || g.field.kind == block && len(g.rest) == 0 {
		return nil, Errors{f.Problem(path, "nothing can be added here", "a list, or a block that is not there yet", "charge")}
	}
	keys, p := f.starting(path, g.field, values)
	if p != nil {
		return nil, Errors{p}
	}
	next, p := f.plant(path, g, keys)
	if p != nil {
		return nil, Errors{p}
	}
	return next.whole(f)
}

// starting are the keys a new item begins with, in the order of its type.
func (f *File) starting(path string, list *field, values map[string]string) ([]sprout, *Problem) {
	for key := range values {
		if inner := list.inner.field(key); inner == nil || inner.deep() {
			message, expected := noKey(key, list.inner)
			return nil, f.Problem(path, message, expected, "")
		}
	}
	things, next := f.things(), f.nextStay(list)
	var keys []sprout
	for i := range list.inner.fields {
		inner := &list.inner.fields[i]
		value := strings.TrimSpace(values[inner.key])
		if value == "" {
			value = next[inner.key]
		}
		if value == "" && inner.need && !inner.deep() {
			value = inner.startingValue(things)
		}
		if value != "" {
			keys = append(keys, sprout{key: inner.key, value: value})
		}
	}
	if len(keys) == 0 {
		return nil, f.Problem(path, "nothing is given for the new item", "at least "+oneOf(list.inner.keys()), "")
	}
	return keys, nil
}

// nextStay are the dates of a stay behind the last one, for the list of stays.
func (f *File) nextStay(list *field) map[string]string {
	if list.key != "route" {
		return nil
	}
	var last Date
	for _, s := range f.Rig.Route {
		if s.To != nil && s.To.After(last.Time) {
			last = *s.To
		}
	}
	if last.IsZero() {
		return nil
	}
	from := Date{last.AddDate(0, 0, 1)}
	return map[string]string{"from": from.String(), "to": Date{from.AddDate(0, 1, 0)}.String()}
}

// startingValue is the example, unless it is a name that is taken or not there.
func (f *field) startingValue(things []thing) string {
	if f.names != nil {
		may := f.namesFor(things)
		if len(may) > 0 && !contains(may, f.eg) {
			return may[0]
		}
		return f.eg
	}
	if f.key != "name" {
		return f.example()
	}
	name := f.eg
	for n := 2; taken(things, name); n++ {
		name = fmt.Sprintf("%s %d", f.eg, n)
	}
	return name
}

func taken(things []thing, name string) bool {
	for _, t := range things {
		if strings.EqualFold(t.name, name) {
			return true
		}
	}
	return false
}

// plant puts the new item or block into the text.
func (f *File) plant(path string, g *target, keys []sprout) (*File, *Problem) {
	want, at := f.tree.flat(), g.last(f.tree.root)
	here := g.path(len(g.hops))
	one := sprout{keys: keys}
	switch {
	case len(g.rest) > 0:
		s := one
		if g.field.kind == blocks {
			s = sprout{items: []sprout{one}}
		}
		s = g.chain(s)
		s.fill(here, want)
		return f.insert(path, g, s, want)
	case at.kind == empty || len(at.items) == 0:
		want[here] = listMark
		one.fillItem(join(here, "0"), want)
		return f.first(path, g, at, one, want)
	}
	one.fillItem(join(here, fmt.Sprint(len(at.items))), want)
	last := at.items[len(at.items)-1]
	if at.flow {
		return f.inline(path, last.value.end, braces(keys), want)
	}
	_, column := f.tree.places.at(last.dash)
	return f.below(path, last.value.end, column-1, one.itemLines(column-1), want)
}

// first puts an item into a list that has none.
func (f *File) first(path string, g *target, at *node, one sprout, want map[string]string) (*File, *Problem) {
	if at.kind == empty {
		return f.hang(path, g, " ["+braces(one.keys)+"]", one.itemLines(f.hangIndent(g)), want)
	}
	return f.apply(path, splice{at.start + 1, at.start + 1, braces(one.keys)}, want, false)
}

// RemoveItem returns a new file without the list item at path, such as
// "charge.roof solar", or without the block at path, such as "heater". The
// error is Errors when something else in the file still names it.
func (f *File) RemoveItem(path string) (*File, error) {
	g, p := f.aim(path)
	if p != nil {
		return nil, Errors{p}
	}
	if len(g.rest) > 0 {
		return f, nil
	}
	if !g.item && g.field.kind != block {
		return nil, Errors{f.Problem(path, "only an item of a list or a block can be removed", "", "charge.roof solar")}
	}
	next, p := f.uproot(path, g)
	if p != nil {
		return nil, Errors{p}
	}
	return next.whole(f)
}

// uproot takes an item or block out; a list left empty goes with it.
func (f *File) uproot(path string, g *target) (*File, *Problem) {
	h := g.hops[len(g.hops)-1]
	if g.item && len(h.in.items) == 1 {
		g.hops = g.hops[:len(g.hops)-1]
		g.item = false
	}
	if !g.item {
		return f.remove(path, g)
	}
	s, ok := f.cutItem(h)
	if !ok {
		return nil, f.byHand(path)
	}
	want := f.tree.flat()
	list := g.path(len(g.hops) - 1)
	drop(want, list)
	fewer := *h.in
	fewer.items = append(append([]item{}, h.in.items[:h.index]...), h.in.items[h.index+1:]...)
	fewer.flatten(list, want)
	return f.apply(path, s, want, true)
}

// cutItem is the splice that takes an item out of its list.
func (f *File) cutItem(h hop) (splice, bool) {
	it := h.in.items[h.index]
	if it.value.end < 0 {
		return splice{}, false
	}
	if h.in.flow {
		return cutFlowItem(h.in.items, h.index)
	}
	start := f.tree.places.lineStart(it.dash)
	indent := it.dash - start
	return splice{start, f.tree.after(it.value.end, indent), ""}, blank(f.Text[start:it.dash])
}

func cutFlowItem(items []item, i int) (splice, bool) {
	if i+1 < len(items) {
		return splice{items[i].value.start, items[i+1].value.start, ""}, true
	}
	before := items[i-1].value.end
	return splice{before, items[i].value.end, ""}, before >= 0
}
