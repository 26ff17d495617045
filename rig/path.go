package rig

import (
	"fmt"
	"strconv"
	"strings"
)

// steps splits "charge[roof solar].settings.float" into its parts.
func steps(path string) ([]string, error) {
	path = strings.ReplaceAll(strings.ReplaceAll(path, "]", ""), "[", ".")
	parts := strings.Split(path, ".")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
		if parts[i] == "" {
			return nil, fmt.Errorf("path %q has an empty part; expected one such as charge.roof solar.limit", path)
		}
	}
	return parts, nil
}

// child returns what one step of a path leads to, nil when it is not there.
func (n *node) child(step string) *node {
	if n == nil {
		return nil
	}
	if n.kind == list {
		if i := n.find(step); i >= 0 {
			return n.items[i].value
		}
		return nil
	}
	return n.get(step)
}

// find returns the number of the item with that name or number, else -1.
func (n *node) find(step string) int {
	for i, it := range n.items {
		if it.value.name() == step {
			return i
		}
	}
	if i, err := strconv.Atoi(step); err == nil && i >= 0 && i < len(n.items) {
		return i
	}
	return -1
}

// itemSteps says how a path calls each item: by its name when no other has it
// and it can stand in a path, else by its number.
func itemSteps(items []item) []string {
	count := map[string]int{}
	for _, it := range items {
		count[it.value.name()]++
	}
	steps := make([]string, len(items))
	for i, it := range items {
		steps[i] = it.value.name()
		if count[steps[i]] > 1 || !canStep(steps[i]) {
			steps[i] = strconv.Itoa(i)
		}
	}
	return steps
}

func canStep(name string) bool {
	_, err := strconv.Atoi(name)
	return err != nil && name != "" && name == strings.TrimSpace(name) && !strings.ContainsAny(name, nameSigns)
}

// at returns the value at path, nil when it is not there.
func (t *tree) at(path string) *node {
	parts, err := steps(path)
	if err != nil {
		return nil
	}
	n := t.root
	for _, step := range parts {
		n = n.child(step)
	}
	return n
}

// nearestTo follows a path as far as it exists.
func (t *tree) nearestTo(path string) *node {
	parts, err := steps(path)
	if err != nil || t.root == nil {
		return nil
	}
	var at *node
	here := t.root
	for _, step := range parts {
		_, e := here.entry(step)
		here = here.child(step)
		if here == nil {
			return at
		}
		at = here
		if e != nil && here.kind != scalar {
			at = e.key
		}
	}
	return at
}
