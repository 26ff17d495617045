package rig

import (
	"fmt"
	"math"
	"reflect"
	"strconv"

	q "ampstead/quantity"
)

// Diff lists what turns one rig into another, in the order of the types. An empty
// value stands for something that goes: a value, a block or an item of a list.
// Items are matched by name where all have one, else by number; their order
// does not count. Quantities are written so that they read back to twelve digits.
func Diff(from, to *Rig) []Change {
	d := &differ{}
	d.sys, _ = q.ParseSystem(to.About.Units) // anything else was refused by the reader
	d.block(rigShape, reflect.ValueOf(from).Elem(), reflect.ValueOf(to).Elem(), "")
	return d.changes
}

type differ struct {
	sys     q.System
	changes []Change
}

func (d *differ) note(path, value string) { d.changes = append(d.changes, Change{path, value}) }

func (d *differ) block(s *shape, from, to reflect.Value, path string) {
	for i := range s.fields {
		f := &s.fields[i]
		a, b, at := from.Field(f.index), to.Field(f.index), join(path, f.key)
		switch f.kind {
		case block:
			d.inner(f, a, b, at)
		case blocks:
			d.list(f.inner, a, b, at)
		default:
			if old, now := f.write(a, d.sys), f.write(b, d.sys); old != now {
				d.note(at, now)
			}
		}
	}
}

// inner compares a block that may be absent on either side.
func (d *differ) inner(f *field, a, b reflect.Value, path string) {
	if !f.pointer {
		d.block(f.inner, a, b, path)
		return
	}
	switch {
	case b.IsNil() && a.IsNil():
	case b.IsNil():
		d.note(path, "")
	case a.IsNil():
		d.block(f.inner, reflect.Zero(f.inner.typ), b.Elem(), path)
	default:
		d.block(f.inner, a.Elem(), b.Elem(), path)
	}
}

// list compares items: first those that go, from the last on, then those that
// stay, then new ones behind them.
func (d *differ) list(s *shape, a, b reflect.Value, path string) {
	old, now := stepsOf(s, a, b), stepsOf(s, b, a)
	kept := 0
	for i := a.Len() - 1; i >= 0; i-- {
		if stepAt(now, old[i]) < 0 {
			d.note(join(path, old[i]), "")
			continue
		}
		kept++
	}
	for i := range a.Len() {
		if k := stepAt(now, old[i]); k >= 0 {
			d.block(s, a.Index(i), b.Index(k), join(path, old[i]))
		}
	}
	for k := range b.Len() {
		if stepAt(old, now[k]) < 0 {
			d.block(s, reflect.Zero(s.typ), b.Index(k), join(path, strconv.Itoa(kept)))
			kept++
		}
	}
}

// stepsOf are the steps that lead to the items of a list: their names, when
// those of both lists are given and differ, else their numbers.
func stepsOf(s *shape, list, other reflect.Value) []string {
	if name := s.field("name"); name != nil && distinct(name, list) && distinct(name, other) {
		steps := make([]string, list.Len())
		for i := range steps {
			steps[i] = list.Index(i).Field(name.index).String()
		}
		return steps
	}
	steps := make([]string, list.Len())
	for i := range steps {
		steps[i] = strconv.Itoa(i)
	}
	return steps
}

func distinct(name *field, list reflect.Value) bool {
	seen := map[string]bool{"": true}
	for i := range list.Len() {
		n := list.Index(i).Field(name.index).String()
		if seen[n] {
			return false
		}
		seen[n] = true
	}
	return true
}

func stepAt(steps []string, step string) int {
	for i, s := range steps {
		if s == step {
			return i
		}
	}
	return -1
}

// write is a scalar as a person writes it, "" when it is not given.
func (f *field) write(v reflect.Value, sys q.System) string {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return ""
		}
		v = v.Elem()
	}
	switch f.kind {
	case whole:
		return wholeText(v.Int())
	case yesNo:
		return map[bool]string{true: "yes", false: "no"}[v.Bool()]
	case amount:
		return exactly(f.dim, v.Float(), sys)
	case setting:
		return settingText(f.dim, v, sys)
	case word:
		return v.String()
	}
	return fmt.Sprint(v.Interface())
}

func wholeText(n int64) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatInt(n, 10)
}

// settingText reads the three fields of a Setting.
func settingText(dim *q.Dimension, v reflect.Value, sys q.System) string {
	switch {
	case !v.FieldByName("Given").Bool():
		return ""
	case v.FieldByName("Off").Bool():
		return "off"
	}
	return exactly(dim, v.FieldByName("Value").Float(), sys)
}

// hair is the difference, relative, that writing in another unit and reading back
// may leave.
const hair = 1e-12

// exactly writes a quantity in the unit that suits its size, with as many digits
// as it takes to read the same number back.
func exactly(dim *q.Dimension, v float64, sys q.System) string {
	unit := dim.Show(v, sys)
	shown, _ := dim.In(v, unit)
	for _, text := range []string{dim.Text(v, sys), strconv.FormatFloat(shown, 'f', -1, 64) + " " + unit} {
		if back, err := dim.Parse(text); err == nil && math.Abs(back-v) <= hair*math.Abs(v) {
			return text
		}
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + " " + dim.Base
}
