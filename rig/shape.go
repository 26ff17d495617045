package rig

import (
	"reflect"
	"strconv"
	"strings"

	q "ampstead/quantity"
)

// kind says how a field's value is written.
type kind int

const (
	word     kind = iota // text
	whole                // int
	yesNo                // bool
	amount               // a quantity with its unit
	setting              // a quantity, or off
	size                 // conductor size
	money                // amount with currency
	day                  // date
	block                // a struct: a mapping
	blocks               // a slice of structs: a list
	anything             // not a field: the end of the list
)

// shape is what one struct type looks like in the file.
type shape struct {
	typ    reflect.Type
	title  string // the type's name
	fields []field
}

// field is one key of a shape, from the struct tags.
type field struct {
	key, doc, eg string
	one          string // what one of the items, or the block, is called
	need         bool
	oneof        []string // allowed words
	names        []string // words, and @lists whose item names are allowed
	only         string   // the kind beside it that it belongs to
	low, high    *float64 // inclusive bounds in base units
	kind         kind
	dim          *q.Dimension // of an amount or a setting
	inner        *shape       // of a block or blocks
	pointer      bool         // a block that may be absent
	index        int          // in the struct
}

// rigShape is the whole file.
var rigShape = describe(reflect.TypeFor[Rig]())

func describe(t reflect.Type) *shape {
	s := &shape{typ: t, title: t.Name()}
	for i := range t.NumField() {
		s.fields = append(s.fields, describeField(t.Field(i), i))
	}
	return s
}

func describeField(from reflect.StructField, index int) field {
	tag := from.Tag
	f := field{key: tag.Get("yaml"), doc: tag.Get("doc"), eg: tag.Get("eg"), one: tag.Get("one"), need: tag.Get("need") == "yes",
		oneof: words(tag.Get("oneof")), names: words(tag.Get("names")), only: tag.Get("only"),
		low: bound(tag.Get("min")), high: bound(tag.Get("max")), index: index}
	t := from.Type
	if t.Kind() == reflect.Pointer {
		f.pointer, t = true, t.Elem()
	}
	f.kind, f.dim = kindOf(t)
	switch f.kind {
	case block:
		f.inner = describe(t)
	case blocks:
		f.inner = describe(t.Elem())
	}
	return f
}

func words(tag string) []string {
	if tag == "" {
		return nil
	}
	return strings.Split(tag, "|")
}

func bound(tag string) *float64 {
	v, err := strconv.ParseFloat(tag, 64)
	if err != nil {
		return nil
	}
	return &v
}

// dimensioned is any quantity, and Setting through its value.
type dimensioned interface{ Dimension() *q.Dimension }

// switchable is a *Setting of any quantity.
type switchable interface {
	set(value float64)
	switchOff()
}

func kindOf(t reflect.Type) (kind, *q.Dimension) {
	switch t {
	case reflect.TypeFor[q.Size]():
		return size, nil
	case reflect.TypeFor[q.Money]():
		return money, nil
	case reflect.TypeFor[Date]():
		return day, nil
	}
	if d, ok := reflect.Zero(t).Interface().(dimensioned); ok {
		if t.Kind() == reflect.Struct {
			return setting, d.Dimension()
		}
		return amount, d.Dimension()
	}
	switch t.Kind() {
	case reflect.Struct:
		return block, nil
	case reflect.Slice:
		return blocks, nil
	case reflect.Int:
		return whole, nil
	case reflect.Bool:
		return yesNo, nil
	}
	return word, nil
}

// field returns the field of a key, nil when the shape has none.
func (s *shape) field(key string) *field {
	for i := range s.fields {
		if s.fields[i].key == key {
			return &s.fields[i]
		}
	}
	return nil
}

func (s *shape) keys() []string {
	keys := make([]string, len(s.fields))
	for i, f := range s.fields {
		keys[i] = f.key
	}
	return keys
}

// deep reports whether the field holds keys of its own.
func (f *field) deep() bool { return f.kind == block || f.kind == blocks }
