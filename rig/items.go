package rig

import (
	"fmt"
	"strings"
)

// starting are the keys a new item begins with, in the order of its type.
func (f *File) starting(path string, list *field, values map[string]string) ([]sprout, *Problem) {
	for key := range values {
		if inner := list.inner.field(key); inner == nil || inner.deep() {
			message, expected := noKey(key, list.inner)
			return nil, f.Problem(path, message, expected, "")
		}
	}
	things, next := f.things(), f.usual(list)
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

// usual are values that a new item of a list has for what else is in the file.
func (f *File) usual(list *field) map[string]string {
	switch list.key {
	case "cables":
		return f.nextCable()
	case "fuses":
		return f.nextFuse()
	}
	return f.nextStay(list)
}

// nextFuse guards the first cable that no fuse guards yet, once there is a main fuse;
// nil before that, and when every cable has its own.
func (f *File) nextFuse() map[string]string {
	guarded := map[string]bool{}
	for _, fuse := range f.Rig.Protection.Fuses {
		guarded[fuse.Guards] = true
	}
	if !guarded["bank"] {
		return nil
	}
	for _, c := range f.Rig.Cables {
		if c.Name != "" && !guarded[c.Name] && !guarded[c.To] && c.From != "bank" {
			return map[string]string{"name": counted(f.things(), c.Name+" fuse"), "guards": c.Name}
		}
	}
	return nil
}

// nextCable leads to the first device that no cable leads to yet, from the bus
// bars where there are any; nil when every device has its cable.
func (f *File) nextCable() map[string]string {
	from, led := "bank", map[string]bool{}
	for _, c := range f.Rig.Cables {
		led[c.From], led[c.To] = true, true
		if c.From == "bus" || c.To == "bus" {
			from = "bus"
		}
	}
	things := f.things()
	for _, t := range things {
		if feeds[t.list] && !led[t.name] {
			return map[string]string{"name": counted(things, from+" to "+t.name), "from": from, "to": t.name}
		}
	}
	return nil
}

// feeds are the lists of what a cable of its own leads to.
var feeds = map[string]bool{"charge": true, "converters": true, "inverters": true, "heater": true}

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
	return counted(things, f.eg)
}

func taken(things []thing, name string) bool {
	for _, t := range things {
		if strings.EqualFold(t.name, name) {
			return true
		}
	}
	return false
}

// atEnd puts new items behind the last one.
const atEnd = -1

// plant puts new items into the text behind the item of that number, or the one
// block.
func (f *File) plant(path string, g *target, items []sprout, behind int) (*File, *Problem) {
	at := g.last(f.tree.root)
	switch {
	case len(g.rest) > 0:
		s := items[0]
		if g.field.kind == blocks {
			s = sprout{items: items}
		}
		want := f.tree.flat()
		s = g.chain(s)
		s.fill(g.path(len(g.hops)), want)
		return f.insert(path, g, s, want)
	case at.kind == empty && g.field.kind == block:
		return f.fillBlock(path, g, items[0])
	case at.kind == empty || len(at.items) == 0:
		return f.first(path, g, at, items)
	}
	if behind == atEnd {
		behind = len(at.items) - 1
	}
	before := at.items[behind]
	want := f.wantBetween(at, g.path(len(g.hops)), behind+1, items)
	if at.flow {
		return f.inline(path, before.value.end, strings.Join(inlines(items), ", "), want)
	}
	_, column := f.tree.places.at(before.dash)
	return f.below(path, before.value.end, column-1, linesOf(items, column-1), want)
}

// wantBetween is the flat tree with new items in the list from number at on.
func (f *File) wantBetween(list *node, path string, at int, items []sprout) map[string]string {
	want := f.tree.flat()
	drop(want, path)
	want[path] = listMark
	for i, it := range list.items {
		if i >= at {
			i += len(items)
		}
		it.value.flatten(join(path, fmt.Sprint(i)), want)
	}
	for i, it := range items {
		it.fillItem(join(path, fmt.Sprint(at+i)), want)
	}
	return want
}

func inlines(items []sprout) []string {
	var all []string
	for _, it := range items {
		all = append(all, braces(it.keys))
	}
	return all
}

func linesOf(items []sprout, indent int) []string {
	var all []string
	for _, it := range items {
		all = append(all, it.itemLines(indent)...)
	}
	return all
}

// first puts items into a list that has none.
func (f *File) first(path string, g *target, at *node, items []sprout) (*File, *Problem) {
	want := f.wantBetween(at, g.path(len(g.hops)), 0, items)
	text := strings.Join(inlines(items), ", ")
	if at.kind == empty {
		return f.hang(path, g, " ["+text+"]", linesOf(items, f.hangIndent(g)), want)
	}
	return f.apply(path, splice{at.start + 1, at.start + 1, text}, want, false)
}

// fillBlock puts keys below a block's key that has nothing below it.
func (f *File) fillBlock(path string, g *target, one sprout) (*File, *Problem) {
	want := f.tree.flat()
	one.fillItem(g.path(len(g.hops)), want)
	var lines []string
	for _, k := range one.keys {
		lines = append(lines, k.lines(f.hangIndent(g))...)
	}
	return f.hang(path, g, " "+braces(one.keys), lines, want)
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
