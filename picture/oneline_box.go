package picture

import "math"

// boxed is the box of a device, with words.
type boxed struct {
	text label
	bad  bool
}

const (
	boxPad  = 8.0
	boxLead = 17.0 // px from a box's top to the line that meets it
)

// boxOf sets a limb's words in a box of a width; beyond names what finds no room.
func (s *sketch) boxOf(l *limb, wide float64, beyond string) boxed {
	name := strong
	if len(l.nodeSays) > 0 {
		name = hot
	}
	list := []words{{name, l.node.Name}}
	if l.again {
		list = append(list, words{small, "stands elsewhere here"})
	} else {
		list = append(list, words{small, l.node.Detail}, words{small, beyond})
	}
	return boxed{newLabel(words{}, 0, math.Max(30, wide-2*boxPad), append(list, alerts(l.nodeSays)...)...), len(l.nodeSays) > 0}
}

func (b boxed) height() float64 { return math.Max(2*boxLead, b.text.height+2*boxPad-3) }

// draw sets the box with its line met at y.
func (b boxed) draw(c *canvas, x, y, wide float64) {
	c.rect(lineClass("bare", false, b.bad), box{x, y - boxLead, wide, b.height()})
	b.text.draw(c, x+boxPad, y-boxLead+boxPad-2)
}

// bankText is what stands at the bank: what it is and what a short draws.
func (s *sketch) bankText(tree *tree, wide float64) label {
	name := strong
	if len(tree.root.nodeSays) > 0 {
		name = hot
	}
	list := []words{{name, tree.root.node.Name}, {small, tree.root.node.Detail}}
	if tree.strings != nil {
		list = append(list, words{small, tree.strings.node.Detail})
	}
	if s.res.ShortA > 0 {
		list = append(list, words{small, "a dead short draws " + amperes(s.res.ShortA)})
	}
	return newLabel(words{}, 0, wide, append(list, alerts(tree.root.nodeSays)...)...)
}

// rows is how many strings of modules are drawn; more are said in words.
func (t *tree) rows() int {
	if t.strings == nil {
		return 1
	}
	return min(3, max(1, t.strings.run.Count))
}

const rowOfString = 32.0 // px from one string to the next
