package rig

import (
	"fmt"
	"strings"
)

func (c *checker) twins() {
	first := map[string]thing{}
	for _, t := range c.file.things() {
		key := strings.ToLower(t.name)
		if other, ok := first[key]; ok {
			c.add(t.at.path, fmt.Sprintf("the name %q is taken, on line %d", t.name, other.at.value.line),
				"a name of its own for each thing", t.name+" 2")
			continue
		}
		first[key] = t
	}
}

// nameSigns have a meaning in a path.
const nameSigns = ".[]"

func (c *checker) plainNames() {
	c.file.visit(func(at spot) {
		if at.field.key != "name" || at.owner == nil || at.owner.key == "about" || at.value.kind != scalar {
			return
		}
		if strings.ContainsAny(at.value.text, nameSigns+"\n") {
			c.add(at.path, fmt.Sprintf("the name %q has a dot, a bracket or a line break in it", at.value.text),
				"a name of words, digits and spaces", at.field.eg)
		}
	})
}

// reservedNames mean something where a name is expected.
var reservedNames = []string{"bank", "bus", "charge", "heater", "own", "string"}

func (c *checker) reserved() {
	for _, t := range c.file.things() {
		if contains(reservedNames, strings.ToLower(t.name)) {
			c.add(t.at.path, fmt.Sprintf("the name %q has a meaning of its own", t.name),
				"a name other than "+either(reservedNames), t.at.field.eg)
		}
	}
}

func (c *checker) references() {
	things := c.file.things()
	c.file.visit(func(at spot) {
		if len(c.problems) >= maxProblems || at.field.names == nil || at.value.kind != scalar {
			return
		}
		may := at.field.namesFor(things)
		if contains(may, at.value.text) {
			return
		}
		message := fmt.Sprintf("nothing named %q is there to %s", at.value.text, at.field.verb())
		if near := nearest(at.value.text, may); near != "" {
			message += fmt.Sprintf(", did you mean %q?", near)
		}
		c.add(at.path, message, expectedName(may, at.field), "")
	})
}

func expectedName(may []string, f *field) string {
	if len(may) == 0 {
		return f.doc + "; there is none in this file yet"
	}
	return oneOf(may)
}

// verb says what a reference does with what it names.
func (f *field) verb() string {
	switch f.key {
	case "drives":
		return "drive"
	case "stops":
		return "stop"
	case "guards":
		return "guard"
	case "from":
		return "start from"
	case "to":
		return "lead to"
	}
	return "feed it"
}

func (c *checker) cables() {
	for i, cable := range c.rig.Cables {
		if cable.From != "" && cable.From == cable.To {
			c.add(c.item("cables", i)+".to", fmt.Sprintf("the cable leads from %s to itself", cable.From),
				"another end", "bus")
		}
	}
}
