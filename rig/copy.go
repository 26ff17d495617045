package rig

import (
	"fmt"
	"regexp"
	"strings"
)

// Copy returns a new file with one more item like the list item at path, under a
// name of its own, and the path of that item. A stay is put behind the last, as
// long as it is now. Comments are not copied. The error is Errors when the path or
// the file that would result is not valid.
func (f *File) Copy(path string) (*File, string, error) {
	g, p := f.aim(path)
	if p != nil {
		return nil, "", Errors{p}
	}
	if !g.item || len(g.rest) > 0 || !g.field.copies() {
		return nil, "", Errors{f.Problem(path, "this cannot be copied", "an item of a list", "charge.roof solar")}
	}
	h := g.hops[len(g.hops)-1]
	one := sproutOf(h.value())
	behind := h.index
	f.rename(&one, g.field, h.in)
	if next := f.nextStay(g.field); next != nil {
		behind = atEnd
		f.redate(&one, next["from"])
	}
	list := outer(path)
	at, p := f.aim(list)
	if p != nil {
		return nil, "", Errors{p}
	}
	next, p := f.plant(list, at, []sprout{one}, behind)
	if p != nil {
		return nil, "", Errors{p}
	}
	if next, err := next.whole(f); err != nil {
		return nil, "", err
	} else if behind == atEnd {
		return next, next.lastOf(list), nil
	} else {
		return next, join(list, next.tree.at(list).steps[behind+1]), nil
	}
}

// copies reports whether one more of a list's items is of use.
func (f *field) copies() bool {
	return f.kind == blocks && f.inner.title != readingShape && f.inner.title != pointShape
}

// sproutOf is a mapping of the file as one to be added.
func sproutOf(n *node) sprout {
	s := sprout{flow: n.flow}
	for _, e := range n.entries {
		k := sproutOf(e.value)
		k.key = e.key.text
		switch {
		case e.value.kind == scalar:
			k.value = e.value.text
		case e.value.kind == list:
			for _, it := range e.value.items {
				k.items = append(k.items, sproutOf(it.value))
			}
		}
		if k.value != "" || k.keys != nil || k.items != nil {
			s.keys = append(s.keys, k)
		}
	}
	return s
}

func (s *sprout) at(key string) *sprout {
	for i := range s.keys {
		if s.keys[i].key == key {
			return &s.keys[i]
		}
	}
	return nil
}

// rename gives a copy a name that nothing has.
func (f *File) rename(one *sprout, list *field, beside *node) {
	name := one.at("name")
	if name == nil {
		name = one.at("item")
	}
	if name == nil {
		return
	}
	all := f.things()
	for _, it := range beside.items {
		all = append(all, thing{name: it.value.name()})
	}
	name.value = counted(all, strings.TrimSpace(number.ReplaceAllString(name.value, "")))
}

var number = regexp.MustCompile(` \d+$`)

// counted is the name, with a number behind it when it is taken.
func counted(things []thing, name string) string {
	free := name
	for n := 2; taken(things, free); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// redate moves a stay to another first day, as long as it was.
func (f *File) redate(stay *sprout, first string) {
	from, to := stay.at("from"), stay.at("to")
	if from == nil || to == nil {
		return
	}
	a, err := ParseDate(from.value)
	b, err2 := ParseDate(to.value)
	start, err3 := ParseDate(first)
	if err != nil || err2 != nil || err3 != nil {
		return
	}
	from.value, to.value = first, Date{start.Add(b.Sub(a.Time))}.String()
}
