package rig

import "fmt"

// Marks for what is not a scalar in a flat tree. No scalar holds them: control
// characters in quotes are the only rivals and get a mark in front.
const (
	emptyMark = "\x00empty"
	blockMark = "\x00block"
	listMark  = "\x00list"
)

// flat writes every value of the tree under its path, items by number, so that
// two trees can be compared.
func (t *tree) flat() map[string]string {
	all := map[string]string{}
	if t.root != nil {
		t.root.flatten("", all)
	}
	return all
}

func (n *node) flatten(path string, into map[string]string) {
	switch n.kind {
	case empty:
		into[path] = emptyMark
	case scalar:
		into[path] = n.text
	case mapping:
		into[path] = blockMark
		for _, e := range n.entries {
			e.value.flatten(join(path, e.key.text), into)
		}
	case list:
		into[path] = listMark
		for i, it := range n.items {
			it.value.flatten(join(path, fmt.Sprint(i)), into)
		}
	}
}
