package rig

// node is one value of the file with its place in the text.
type node struct {
	kind         nodeKind
	line, column int // from 1, in characters
	start, end   int // bytes of the value's text; end is -1 when it is not known
	text         string
	quote        quoting
	flow         bool     // written {a: 1} or [a, b]
	entries      []entry  // of a mapping
	items        []item   // of a list
	steps        []string // how a path calls each item
}

type nodeKind int

const (
	empty nodeKind = iota // nothing after the colon, ~ or null
	scalar
	mapping
	list
)

// quoting is how a scalar is written.
type quoting int

const (
	plain quoting = iota
	single
	double
	literal // | or >
)

// entry is one key of a mapping with its value.
type entry struct {
	key   *node
	value *node
}

// item is one element of a list; dash is the byte of its "-", -1 in a flow list.
type item struct {
	dash  int
	value *node
}

// entry returns the first entry with that key.
func (n *node) entry(key string) (int, *entry) {
	if n == nil || n.kind != mapping {
		return -1, nil
	}
	for i := range n.entries {
		if n.entries[i].key.text == key {
			return i, &n.entries[i]
		}
	}
	return -1, nil
}

// get returns the value of a key, nil when it is not there.
func (n *node) get(key string) *node {
	_, e := n.entry(key)
	if e == nil {
		return nil
	}
	return e.value
}

// name is what a list item is called: its name or its item.
func (n *node) name() string {
	for _, key := range []string{"name", "item"} {
		if v := n.get(key); v != nil && v.kind == scalar {
			return v.text
		}
	}
	return ""
}

// what names the node's shape to a person.
func (n *node) what() string {
	switch n.kind {
	case mapping:
		return "a block of keys"
	case list:
		return "a list"
	case scalar:
		return "a single value"
	}
	return "nothing"
}
